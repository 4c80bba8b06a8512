import { describe, expect, it } from 'vitest';
import { fromQuote } from '../../../src/ui/intake/from-quote.ts';
import { emptyIntake, intakeInput, isPhone, missingIn } from '../../../src/ui/intake/intake-form.ts';
import { typeInstructions, usualInstructions } from '../../../src/ui/orders/instructions-form.ts';
import { readInstructions } from '../../../src/ui/orders/read-instructions.ts';

const orders = () => readInstructions(usualInstructions('lb'), 'lb').value;

describe('instructions', () => {
  it('start with the shop’s defaults', () => {
    expect(orders()).toEqual({
      cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 453.59237, pricedExtras: {}, extras: [], note: '', primals: [], pattyGrams: null, alsoGround: [],
    }); // prettier-ignore
  });

  it('round-trip without edits', () => {
    const stored = {
      cutsShare: 0.125, fat: 'pork-backfat', targetFat: 0.2, grindProduct: 'Burger', packageGrams: 907.18474,
      pricedExtras: {}, extras: ['heart kept', 'tenderloin whole'], note: 'no shank', primals: [], pattyGrams: null, alsoGround: [],
    }; // prettier-ignore
    expect(readInstructions(typeInstructions(stored, 'lb'), 'lb')).toEqual({ value: stored, wrong: {} });
  });

  it('report an invalid field and keep its text', () => {
    const typed = Object.freeze({
      ...usualInstructions('lb'),
      cuts: 'half',
      pack: 'big',
      fat: 'own',
      target: '70',
    });
    const { value, wrong } = readInstructions(typed, 'lb');
    expect(value).toBeNull();
    expect(Object.keys(wrong).sort()).toEqual(['cuts', 'pack', 'target']);
  });

  it('drop the target without fat', () => {
    expect(
      readInstructions({ ...usualInstructions('lb'), target: 'nonsense' }, 'lb').value?.targetFat,
    ).toBeNull();
  });
});

describe('the intake form', () => {
  const filled = {
    ...emptyIntake('lb'),
    find: 'Ana Reyes',
    phone: '555 0142',
    species: 'elk',
    sex: 'female',
    brought: 'whole',
  } as const;

  it('requires hunter, species, sex and condition', () => {
    expect(Object.keys(missingIn(emptyIntake('lb'))).sort()).toEqual(['brought', 'hunter', 'sex', 'species']);
    expect(missingIn({ ...filled })).toEqual({});
  });

  it('treats digits in the hunter field as a phone number, and then requires the name', () => {
    expect(isPhone('(555) 01-42')).toBe(true);
    expect(isPhone('Okonjo 2')).toBe(false);
    expect(Object.keys(missingIn({ ...filled, find: '555 0142' }))).toEqual(['name']);
    const input = intakeInput({ ...filled, find: '555 0142', name: 'Ana Reyes' }, orders()!, {});
    expect(input.hunter).toMatchObject({ name: 'Ana Reyes', phone: '555 0142' });
  });

  it('requires the received pieces, and sends only those', () => {
    const some = { ...filled, brought: 'primals', parts: { shoulder: 0 } } as const;
    expect(Object.keys(missingIn(some))).toEqual(['parts']);
    const input = intakeInput({ ...some, parts: { shoulder: 1, haunch: 0 } }, orders()!, {});
    expect(input.parts).toEqual([{ primal: 'shoulder', count: 1 }]);
  });

  it('sends weights as typed, and omits empty ones', () => {
    const input = intakeInput({ ...filled, received: '84 lb 10 oz', hanging: ' ' }, orders()!, {
      confirmed: ['weight.unlikely'],
    });
    expect(input.weights).toEqual([{ stage: 'received', typed: '84 lb 10 oz' }]);
    expect(input.confirmed).toEqual(['weight.unlikely']);
    expect(input.killDate).toBeNull();
  });
});

describe('fromQuote', () => {
  const instructions = {
    cutsShare: 0.75, fat: 'own', targetFat: 0.15, grindProduct: 'Burger', packageGrams: 907.18474, pricedExtras: {}, extras: ['rush'], note: 'no shank', primals: [], pattyGrams: null, alsoGround: [],
  }; // prettier-ignore
  const asked = (stage: 'live' | 'dressed' | 'hanging' | 'parts', brought: 'whole' | 'skinned' | 'boned') =>
    fromQuote(
      {
        species: 'elk',
        sex: 'male',
        age: 'adult',
        brought,
        parts: [],
        stage,
        typed: '75 lb',
        instructions,
        adjustments: [],
      },
      'lb',
    );

  it('copies the animal and the instructions', () => {
    const { instructions: typed, ...animal } = asked('hanging', 'skinned');
    expect(animal).toMatchObject({ species: 'elk', sex: 'male', age: 'adult', brought: 'skinned' });
    expect(readInstructions(typed, 'lb').value).toEqual(instructions);
  });

  it.each([
    ['hanging', 'skinned', '', '75 lb'],
    ['parts', 'boned', '75 lb', ''],
    ['dressed', 'whole', '75 lb', ''],
    ['dressed', 'skinned', '', ''],
    ['live', 'whole', '', ''],
  ] as const)('maps a %s weight of an animal brought %s to its field', (stage, brought, received, hanging) =>
    expect(asked(stage, brought)).toMatchObject({ received, hanging }),
  );
});
