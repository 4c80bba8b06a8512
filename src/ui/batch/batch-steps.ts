import type { BatchPage } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/batch.ts';
import type { Format } from '../texts/format.ts';
import { standing } from './to-weigh.ts';

/** The steps of a batch before it is finished. Passes and fat tests need not be recorded. */
export const STEPS = ['weighIn', 'grind', 'test', 'pack'] as const;
export type BatchStep = (typeof STEPS)[number];

/** What the batch needs next: everything weighed in, then packages. */
export function presentStep(batch: Pick<BatchPage, 'state' | 'toWeigh' | 'inGrams'>): BatchStep {
  const weighs = batch.state === 'open' && (batch.toWeigh.length > 0 || batch.inGrams === 0);
  return weighs ? 'weighIn' : 'pack';
}

/** Whether something is recorded of a step; weighing in is done when all of the plan is in. */
export function isDone(step: BatchStep, batch: BatchPage): boolean {
  switch (step) {
    case 'weighIn':
      return presentStep(batch) !== 'weighIn';
    case 'grind':
      return batch.passes.length > 0;
    case 'test':
      return batch.fatTests.length > 0;
    case 'pack':
      return batch.state === 'done' && batch.packages.length > 0;
  }
}

/** One line of what is recorded: '4 weights, 51.50 lb'. */
export function stepSays(step: BatchStep, batch: BatchPage, format: Format): string {
  switch (step) {
    case 'weighIn':
      return text.weights({ n: standing(batch.weighedIn).length, mass: format.mass(batch.inGrams) });
    case 'grind':
      return batch.passes.length > 0 ? text.passes({ n: batch.passes.length }) : text.notNoted;
    case 'test': {
      const last = batch.fatTests.at(-1);
      return last ? format.share(last.fat) : text.notNoted;
    }
    case 'pack':
      return batch.outGrams > 0 ? format.mass(batch.outGrams) : text.nothingPacked;
  }
}
