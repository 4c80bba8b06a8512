import { describe, expect, it } from 'vitest';
import type { AnimalPage, Instructions } from '../../src/bridge/contract.ts';
import { ordersLines } from '../../src/ui/table/orders-lines.ts';
import { takeHomeSentence } from '../../src/ui/table/take-home.ts';
import { makeFormat } from '../../src/ui/texts/format.ts';

const format = makeFormat({ unit: 'kg', step: 0.05, locale: 'en-US', currency: 'USD' });
const orders: Instructions = {
  cutsShare: 0.4,
  primals: [],
  pattyGrams: null,
  alsoGround: [],
  fat: 'none',
  targetFat: null,
  grindProduct: 'Burger',
  packageGrams: 500,
  extras: [],
  note: '',
};
const fats = [{ code: 'pork-backfat', name: 'Pork back fat', animal: 'pork' as const, fat: 0.85 }];

describe('takeHomeSentence', () => {
  const ladder: AnimalPage['ladder'] = { baseGrams: 20_000, base: 'hanging', pieces: [], restGrams: 20_000 };
  const expected: AnimalPage['expected'] = [{ part: 'take-home', low: 0.51, high: 0.63 }];

  it('tells what to expect before anything is cut', () =>
    expect(takeHomeSentence({ ladder, expected, takeHomeGrams: 0 }, format)).toBe(
      'Expect 10.2–12.6 kg to take home, 51–63 % of hanging weight.',
    ));

  it('tells what there is once cutting began', () =>
    expect(
      takeHomeSentence({ ladder: { ...ladder, base: 'received' }, expected, takeHomeGrams: 8000 }, format),
    ).toBe('Take home so far 8.00 kg, 40.0 % of what came in; such animals mostly give 51–63 %.'));

  it('says nothing of an animal without a weight', () =>
    expect(takeHomeSentence({ ladder: null, expected, takeHomeGrams: 0 }, format)).toBe(''));
});

describe('ordersLines', () => {
  it('says what is kept, ground and packed', () =>
    expect(ordersLines(orders, fats, format)).toEqual([
      '40 % kept as steaks and roasts, the rest ground as “Burger”',
      'No fat added',
      'Packages of 0.50 kg',
    ]));

  it('names the fat and the target', () =>
    expect(ordersLines({ ...orders, fat: 'pork-backfat', targetFat: 0.125 }, fats, format)[1]).toBe(
      'Ground to 12.5 % fat with pork back fat',
    ));

  it('does not speak of fat when nothing is ground, and adds the extras', () =>
    expect(ordersLines({ ...orders, cutsShare: 1, extras: ['heart kept'] }, fats, format)).toEqual([
      'All kept as steaks and roasts',
      'Packages of 0.50 kg',
      'heart kept',
    ]));
});
