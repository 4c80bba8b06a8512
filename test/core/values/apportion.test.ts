import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apportion } from '../../../src/core/values/apportion.ts';

const weights = fc
  .array(fc.integer({ min: 0, max: 1_000_000 }), { minLength: 1, maxLength: 30 })
  .filter((all) => all.some((weight) => weight > 0));
const total = fc.nat({ max: 1_000_000 });
const sum = (all: readonly number[]) => all.reduce((a, b) => a + b, 0);

/** The slow, obvious way: hand out one at a time to whoever is furthest below the quota, first in line first. */
function oneByOne(things: number, shares: readonly number[]): number[] {
  const whole = sum(shares);
  const got = shares.map((share) => Math.floor((things * share) / whole));
  while (sum(got) < things) {
    const owed = shares.map((share, i) => things * share - (got[i] as number) * whole);
    const first = owed.indexOf(Math.max(...owed));
    got[first] = (got[first] as number) + 1;
  }
  return got;
}

describe('apportion', () => {
  it('divides the worked example', () => {
    expect(apportion(10, Object.freeze([1, 1, 1]))).toEqual([4, 3, 3]);
  });

  it('sums to the total and stays within one of each quota', () => {
    fc.assert(
      fc.property(total, weights, (things, shares) => {
        const got = apportion(things, shares);
        expect(sum(got)).toBe(things);
        got.forEach((one, i) => {
          const quota = (things * (shares[i] as number)) / sum(shares);
          expect(Math.abs(one - quota)).toBeLessThan(1);
        });
      }),
      { numRuns: 1000 },
    );
  });

  it('sums exactly for fractional weights too', () => {
    const fractions = fc.array(fc.double({ min: 0, max: 1e300, noNaN: true }), {
      minLength: 1,
      maxLength: 9,
    });
    fc.assert(
      fc.property(fc.nat({ max: Number.MAX_SAFE_INTEGER }), fractions, (things, shares) => {
        fc.pre(shares.some((share) => share > 0));
        expect(sum(apportion(things, shares))).toBe(things);
      }),
      { numRuns: 1000 },
    );
  });

  it('agrees with a one-by-one allocation', () => {
    const few = fc.array(fc.nat({ max: 12 }), { minLength: 1, maxLength: 7 });
    fc.assert(
      fc.property(fc.nat({ max: 60 }), few, (things, shares) => {
        fc.pre(sum(shares) > 0);
        expect(apportion(things, shares)).toEqual(oneByOne(things, shares));
      }),
      { numRuns: 2000 },
    );
  });

  it('divides zero, and does not depend on the unit of the weights', () => {
    fc.assert(
      fc.property(total, weights, (things, shares) => {
        const got = apportion(things, shares);
        shares.forEach((share, i) => share === 0 && expect(got[i]).toBe(0));
        expect(apportion(things, shares.map((share) => share * 1000))).toEqual(got); // prettier-ignore
        expect(apportion(things, shares.map((share) => share / 1000))).toEqual(got); // prettier-ignore
      }),
      { numRuns: 1000 },
    );
  });

  it('breaks ties by the order of the list, also for decimals without an exact binary form', () => {
    expect(apportion(1, [5, 5])).toEqual([1, 0]);
    expect(apportion(2, [0.3, 0.1])).toEqual([2, 0]);
    expect(apportion(2, [0.1, 0.3])).toEqual([1, 1]);
    expect(apportion(2, [0.1 + 0.2, 0.1])).toEqual([2, 0]);
  });

  it.each([
    ['total.not-whole', 1.5, [1]],
    ['total.not-whole', Number.NaN, [1]],
    ['total.not-whole', 2 ** 53, [1]],
    ['total.negative', -1, [1]],
    ['weights.empty', 3, []],
    ['weights.negative', 3, [1, -1]],
    ['weights.all-zero', 3, [0, 0]],
    ['number.not-finite', 3, [1, Infinity]],
  ])('answers %s', (code, things, shares) => {
    expect(() => apportion(things, shares)).toThrow(expect.objectContaining({ code }));
  });
});
