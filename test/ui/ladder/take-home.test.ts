import { describe, expect, it } from 'vitest';
import type { AnimalPage } from '../../../src/bridge/contract.ts';
import { takeHomeSentence } from '../../../src/ui/ladder/take-home.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';

const format = makeFormat({ unit: 'kg', step: 0.05, locale: 'en-US', currency: 'USD' });
describe('takeHomeSentence', () => {
  const ladder: AnimalPage['ladder'] = { baseGrams: 20_000, base: 'hanging', pieces: [], restGrams: 20_000 };
  const expected: AnimalPage['expected'] = [{ part: 'take-home', low: 0.51, high: 0.63 }];

  it('states the expected take-home before cutting', () =>
    expect(takeHomeSentence({ ladder, expected, takeHomeGrams: 0 }, format)).toBe(
      'Expect 10.2–12.6 kg to take home, 51–63% of hanging weight.',
    ));

  it('states the actual take-home once cutting began', () =>
    expect(
      takeHomeSentence({ ladder: { ...ladder, base: 'received' }, expected, takeHomeGrams: 8000 }, format),
    ).toBe('Take-home so far: 8.00 kg, 40.0% of what came in; animals like this usually give 51–63%.'));

  it('is empty without a weight', () =>
    expect(takeHomeSentence({ ladder: null, expected, takeHomeGrams: 0 }, format)).toBe(''));
});
