import { describe, expect, it } from 'vitest';
import { summarise, removeObservation, type YieldObservation } from '../../../src/core/yield/yield.ts';
import { leaveOneOut, withDemo } from '../../calibrate/demo.ts';
import { binomialCounts, LEVELS } from '../../calibrate/coverage.ts';

const elk = { species: 'elk', brought: 'whole' } as const;
const animals: YieldObservation[] = [
  { hangingGrams: 150_000, takeHomeGrams: 90_000, parts: { trim: 40_000, wholeCuts: 50_000 }, group: elk },
  { hangingGrams: 140_000, takeHomeGrams: 80_000, parts: {}, group: elk },
  { hangingGrams: 60_000, takeHomeGrams: 33_000, parts: {}, group: { ...elk, species: 'mule-deer' } },
];

describe('leave-one-out', () => {
  it.each([0, 1, 2])('leaves the sums of the others (without animal %i)', (i) => {
    const left = removeObservation(summarise(animals), animals[i] as YieldObservation);
    const others = summarise(animals.filter((_, at) => at !== i));
    const sumsOf = (sums: typeof left) =>
      Object.values(sums).flatMap(({ group, splits }) =>
        Object.entries(splits).map(([split, { n, sum, squares }]) => [
          `${group.species} ${split} ${n}`,
          sum,
          squares,
        ]),
      );
    const close = (row: unknown[]) => row.map((value) => (typeof value === 'number' ? expect.closeTo(value, 9) : value)); // prettier-ignore
    expect(sumsOf(left)).toEqual(sumsOf(others).map(close));
  });

  it('covers the demo animals at every level', async () => {
    const all = (await withDemo(leaveOneOut)).at(-1);
    expect(all?.animals).toBeGreaterThan(400);
    LEVELS.forEach((level, i) => {
      const { low, high } = binomialCounts(level, all?.animals ?? 0);
      expect(all?.held[i]).toBeGreaterThanOrEqual(low);
      expect(all?.held[i]).toBeLessThanOrEqual(high);
    });
  }, 60_000);
});

describe('the binomial band', () => {
  it('has at most 2.5 % of the binomial distribution on either side', () => {
    // Of 10 at one half: P(0 or 1) = 11/1024 = 1.1 %, P(0 to 2) = 56/1024 = 5.5 %.
    expect(binomialCounts(0.5, 10)).toEqual({ low: 2, high: 8 });
    // Of 3 at 0.95: P(0 or 1) = 0.7 %, P(0 to 2) = 14.3 %.
    expect(binomialCounts(0.95, 3)).toEqual({ low: 2, high: 3 });
  });

  it('approaches the normal one for large n', () => {
    const { low, high } = binomialCounts(0.8, 2000);
    const half = 1.96 * Math.sqrt(2000 * 0.8 * 0.2);
    expect(Math.abs(low - (1600 - half))).toBeLessThan(1.5);
    expect(Math.abs(high - (1600 + half))).toBeLessThan(1.5);
  });
});
