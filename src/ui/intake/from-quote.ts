import type { CallOutput } from '../../bridge/contract.ts';
import { typeInstructions } from '../orders/instructions-form.ts';
import type { IntakeForm } from './intake-form.ts';

type QuoteInput = CallOutput<'quotes.get'>['asked'];

/**
 * The values of a quote as fields of Intake. A hanging weight fills the hanging field; weights of pieces and
 * field-dressed animals fill the received weight; a live weight has no field.
 * @example fromQuote({ …, stage: 'hanging', typed: '340' }, 'lb').hanging // '340'
 */
export function fromQuote(
  asked: QuoteInput,
  unit: 'lb' | 'kg',
): Pick<
  IntakeForm,
  'species' | 'sex' | 'age' | 'brought' | 'legs' | 'parts' | 'received' | 'hanging' | 'instructions'
> {
  const dressed = asked.stage === 'dressed' || asked.stage === 'legs off';
  const asItCame = asked.stage === 'parts' || (dressed && asked.brought === 'whole');
  return {
    species: asked.species,
    sex: asked.sex,
    age: asked.age,
    brought: asked.brought,
    legs: asked.stage === 'legs off' ? 'off' : 'on',
    parts: Object.fromEntries(asked.parts.map(({ primal, count }) => [primal, count])),
    received: asItCame ? asked.typed : '',
    hanging: asked.stage === 'hanging' ? asked.typed : '',
    instructions: typeInstructions(asked.instructions, unit),
  };
}
