import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ValidationError } from '../../../src/core/values/validation-error.ts';
import { compareMeans } from '../../../src/core/stats/welch.ts';

const group = fc.record({
  n: fc.integer({ min: 2, max: 5000 }),
  mean: fc.double({ min: -1, max: 1, noNaN: true }),
  sd: fc.double({ min: 0.001, max: 0.5, noNaN: true }),
});

describe('compareMeans', () => {
  it('matches the worked example', () => {
    const { difference, low, high } = compareMeans(
      Object.freeze({ n: 10, mean: 0.75, sd: 1.78901 }),
      Object.freeze({ n: 10, mean: 2.33, sd: 2.002249 }),
      0.95,
    );
    expect([difference, low, high].map((value) => Math.round(value * 1000) / 1000)).toEqual([
      -1.58, -3.365, 0.205,
    ]);
  });

  it('changes sign when the groups are swapped, and widens with the level', () => {
    fc.assert(
      fc.property(group, group, (a, b) => {
        const there = compareMeans(a, b, 0.9);
        const back = compareMeans(b, a, 0.9);
        expect(back.difference).toBeCloseTo(-there.difference, 12);
        expect(back.low).toBeCloseTo(-there.high, 9);
        const wider = compareMeans(a, b, 0.99);
        expect(wider.high - wider.low).toBeGreaterThan(there.high - there.low);
        expect(there.degrees).toBeGreaterThanOrEqual(Math.min(a.n, b.n) - 1 - 1e-9);
        expect(there.degrees).toBeLessThanOrEqual(a.n + b.n - 2 + 1e-6);
      }),
      { numRuns: 1000 },
    );
  });

  it('is exact for values without variance', () => {
    const same = compareMeans({ n: 3, mean: 0.5, sd: 0 }, { n: 4, mean: 0.5, sd: 0 }, 0.9);
    expect(same).toEqual({ difference: 0, low: 0, high: 0, t: 0, degrees: 5 });
    expect(compareMeans({ n: 3, mean: 0.6, sd: 0 }, { n: 4, mean: 0.5, sd: 0 }, 0.9).t).toBe(Infinity);
  });

  it.each([
    [{ n: 1, mean: 0, sd: 0 }, 'spread.too-few'],
    [{ n: 2, mean: NaN, sd: 1 }, 'number.not-finite'],
    [{ n: 2, mean: 0, sd: -1 }, 'spread.negative'],
  ])('refuses %j', (bad, code) => {
    expect(() => compareMeans({ n: 5, mean: 0, sd: 1 }, bad, 0.9)).toThrow(
      expect.objectContaining({ code, field: 'b' }) as ValidationError,
    );
  });
});
