/** Chances of counts: known values of Poisson and of the negative binomial, and what must hold of any. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  convolve,
  pmfQuantile,
  countPmf,
  pmfMean,
  mixture,
  truncatedDifference,
} from '../../../src/core/forecast/pmf.ts';

const sum = (values: readonly number[]) => values.reduce((total, one) => total + one, 0);
const variance = (chances: readonly number[]) => {
  const mean = pmfMean(chances);
  return sum(chances.map((chance, k) => chance * (k - mean) ** 2));
};

describe('the distribution of a count', () => {
  it('at dispersion 1 is Poisson', () => {
    // e^-3 × 3^k / k!
    const three = countPmf(3, 1);
    [0, 1, 2, 5].forEach((k) => {
      const factorial = [1, 1, 2, 6, 24, 120][k] as number;
      expect(three[k]).toBeCloseTo((Math.exp(-3) * 3 ** k) / factorial, 9);
    });
  });

  it('at dispersion 2 and mean 1 halves from one count to the next', () => {
    // r = 1: the geometric distribution, 1/2, 1/4, 1/8 …
    countPmf(1, 2)
      .slice(0, 12)
      .forEach((chance, k) => expect(chance).toBeCloseTo(0.5 ** (k + 1), 8));
  });

  it('has the requested mean and variance, and sums to 1, at any size', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 2000, noNaN: true }),
        fc.double({ min: 1, max: 8, noNaN: true }),
        (mean, spread) => {
          const chances = countPmf(mean, spread);
          expect(sum(chances)).toBeCloseTo(1, 9);
          expect(pmfMean(chances)).toBeCloseTo(mean, 4);
          expect(variance(chances) / Math.max(mean, 1e-3)).toBeCloseTo(
            mean > 1e-3 ? spread : variance(chances) / 1e-3,
            2,
          );
        },
      ),
      { numRuns: 60 },
    );
  });

  it('refuses a negative count and a dispersion below 1', () => {
    expect(() => countPmf(-1, 1)).toThrow('amount.negative');
    expect(() => countPmf(NaN, 1)).toThrow('amount.negative');
    expect(() => countPmf(1, 0.9)).toThrow('spread.below-one');
  });
});

describe('combined counts', () => {
  it('add up like two dice', () => {
    const die = [0, ...new Array<number>(6).fill(1 / 6)];
    const two = convolve(die, die);
    expect(two[7]).toBeCloseTo(6 / 36, 12);
    expect(two[2]).toBeCloseTo(1 / 36, 12);
    expect(two[12]).toBeCloseTo(1 / 36, 12);
  });

  it('never go below zero', () => {
    // 3 less 0 to 5, each 1/6: nothing in three of six cases.
    const rest = truncatedDifference([0, 0, 0, 1], new Array<number>(6).fill(1 / 6));
    [3 / 6, 1 / 6, 1 / 6, 1 / 6].forEach((chance, k) => expect(rest[k]).toBeCloseTo(chance, 12));
  });

  it('are the same where they are long, with and without rare counts below', () => {
    // Long enough for transforms; the pairs one by one are the standard.
    const [many, some] = [countPmf(900, 40), countPmf(300, 12)];
    const late = [...new Array<number>(500).fill(0), ...many];
    for (const from of [many, late]) {
      const [sums, rests] = [new Map<number, number>(), new Map<number, number>()];
      from.forEach((one, i) =>
        some.forEach((other, k) => {
          sums.set(i + k, (sums.get(i + k) ?? 0) + one * other);
          rests.set(Math.max(0, i - k), (rests.get(Math.max(0, i - k)) ?? 0) + one * other);
        }),
      );
      convolve(from, some).forEach((chance, k) =>
        expect(Math.abs(chance - (sums.get(k) ?? 0))).toBeLessThan(1e-8),
      );
      const found = truncatedDifference(from, some);
      found.forEach((chance, k) => expect(Math.abs(chance - (rests.get(k) ?? 0))).toBeLessThan(1e-8));
      expect(pmfMean(found)).toBeCloseTo(sum([...rests].map(([k, chance]) => k * chance)), 5);
    }
  });

  it('mix by weight', () => {
    expect(
      mixture([
        { weight: 0.25, pmf: [1] },
        { weight: 0.75, pmf: [0, 1] },
      ]),
    ).toEqual([0.25, 0.75]);
  });

  it('give quantiles', () => {
    expect(pmfQuantile([0.5, 0.3, 0.2], 0.8)).toBe(1);
    expect(pmfQuantile([0.5, 0.3, 0.2], 0.81)).toBe(2);
    expect(pmfQuantile([0.5, 0.3, 0.2], 1)).toBe(2);
  });
});
