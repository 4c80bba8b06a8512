import { describe, expect, it } from 'vitest';
import type { AnimalPage } from '../../../src/bridge/contract.ts';
import { lastWeight } from '../../../src/ui/table/last-weight.ts';
import { partRows } from '../../../src/ui/ladder/part-rows.ts';
import { rangeAt } from '../../../src/ui/ladder/range-mark.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';

const format = makeFormat({ unit: 'lb', step: 0.05, locale: 'en-US', currency: 'USD' });

describe('rangeAt', () => {
  it('draws the typical range as the middle third', () => {
    expect([0.2, 0.3, 0.4].map((share) => rangeAt(share, 0.2, 0.4))).toEqual([
      expect.closeTo(1 / 3),
      expect.closeTo(1 / 2),
      expect.closeTo(2 / 3),
    ]);
  });

  it('keeps what is far outside on the strip', () => {
    expect(rangeAt(0.9, 0.2, 0.3)).toBe(0.96);
    expect(rangeAt(0, 0.5, 0.6)).toBe(0.04);
  });

  it('places a share beside a range without width', () => expect(rangeAt(0, 0, 0)).toBeCloseTo(1 / 3));
});

describe('partRows', () => {
  it('say the rest as the animal’s weight was typed while nothing of it is weighed', () => {
    const page = {
      ladder: { baseGrams: 49_044.7, base: 'hanging', pieces: [], restGrams: 49_044.7 },
      takeHomeGrams: 0,
      expected: [],
      none: [],
      weighings: [{ stage: 'hanging', voided: null, tareTyped: null, typed: '108 lb 2 oz', unit: 'lb' }],
    } as unknown as AnimalPage;
    expect(partRows(page, format).at(-1)?.said).toBe('108 lb 2 oz');
  });

  const page = (grams: number) =>
    ({
      ladder: { baseGrams: 1000, base: 'hanging', pieces: [{ part: 'bone', grams, share: grams / 1000 }], restGrams: 0 },
      takeHomeGrams: 0, weighings: [],
      expected: [{ part: 'bone', low: 0.2, high: 0.3 }],
      none: [],
    }) as unknown as AnimalPage; // prettier-ignore
  const bone = (grams: number) => partRows(page(grams), format).find(({ key }) => key === 'bone');

  it('names a share outside of the typical range', () => {
    expect([100, 250, 400].map((grams) => bone(grams)?.off)).toEqual(['below', null, 'above']);
  });

  it('marks parts that exceed the animal, instead of calling them unknown', () => {
    const rest = (grams: number) => partRows(page(grams), format).at(-1);
    expect(rest(400)).toMatchObject({ name: 'Unaccounted for', over: false });
    expect(rest(1200)).toMatchObject({ name: 'Weighed too much', over: true, grams: 200 });
  });
});

describe('lastWeight', () => {
  const row = (id: number, more: object = {}) => ({ id, voided: null, batch: null, ...more });
  const last = (...rows: object[]) => lastWeight({ weighings: rows as AnimalPage['weighings'] })?.id;

  it('is the latest one that is neither voided nor in a batch', () => {
    expect(last(row(1), row(3), row(2))).toBe(3);
    expect(last(row(1), row(2, { voided: { reason: 'twice' } }), row(3, { batch: 'G26-001' }))).toBe(1);
    expect(last()).toBeUndefined();
  });
});
