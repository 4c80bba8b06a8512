/** The regression against slow and obvious ways to the same answer, and the matching of means and spreads. */
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { fitSplit, predictiveAt, meanAt, type GroupStatistics } from '../../../src/core/yield/fit.ts';
import { logitNormalFromMoments } from '../../../src/core/yield/logit-normal.ts';
import { divide, logit, inverseLogit } from '../../../src/core/yield/tree.ts';

const heapOf = (values: readonly number[], places: readonly number[], species = 'elk'): GroupStatistics => ({
  columnIndices: places,
  species,
  n: values.length,
  sum: values.reduce((total, z) => total + z, 0),
  squares: values.reduce((total, z) => total + z * z, 0),
});

describe('fitSplit', () => {
  it('with one effect is the textbook normal-inverse-gamma update', () => {
    // Conjugate update with prior mean 0.5 worth 4 animals, 10 degrees and squared scale 0.8 (Gelman et al.,
    // Bayesian Data Analysis, section 3.3; from memory), worked by hand:
    // mean (4 * 0.5 + 6) / 8 = 1; squares about the mean 5; 8 + 5 + 4 * 4 / 8 * (1.5 - 0.5)^2 = 15; over 14.
    const values = [0, 1, 2, 3];
    const fit = fitSplit([{ name: 'shop:', priorMean: 0.5, variance: 1 / 4 }], [heapOf(values, [0])]);
    expect(fit.effects[0]).toBeCloseTo(1, 12);
    expect(meanAt(fit, [0]).variance).toBeCloseTo(1 / 8, 12);
    expect(fit.degrees).toBe(14);
    expect(fit.variance).toBeCloseTo(15 / 14, 12);
  });

  it('with two effects matches a fine grid', () => {
    const columns = [
      { name: 'a', priorMean: 0, variance: 0.5 },
      { name: 'b', priorMean: 0.3, variance: 0.2 },
    ];
    const heaps = [heapOf([1, 1.4, 0.7], [0]), heapOf([2, 1.1], [0, 1])];
    const fit = fitSplit(columns, heaps);
    const cost = (a: number, b: number): number =>
      a ** 2 / 0.5 +
      (b - 0.3) ** 2 / 0.2 +
      [1, 1.4, 0.7].reduce((total, z) => total + (z - a) ** 2, 0) +
      [2, 1.1].reduce((total, z) => total + (z - a - b) ** 2, 0);
    let best = { a: 0, b: 0, cost: Infinity };
    for (let a = -1; a <= 2; a += 0.005)
      for (let b = -1; b <= 2; b += 0.005) if (cost(a, b) < best.cost) best = { a, b, cost: cost(a, b) };
    expect(fit.effects[0]).toBeCloseTo(best.a, 2);
    expect(fit.effects[1]).toBeCloseTo(best.b, 2);
    expect(fit.variance).toBeCloseTo((8 + cost(fit.effects[0] ?? 0, fit.effects[1] ?? 0)) / 15, 9);
  });

  it('recovers the spread of each species when they differ', () => {
    const chance = seededRandom(5);
    const draw = (n: number, spread: number) => Array.from({ length: n }, () => spread * chance.normal());
    const columns = [
      { name: 'a', priorMean: 0, variance: 1 },
      { name: 'b', priorMean: 0, variance: 1 },
    ];
    const fit = fitSplit(columns, [heapOf(draw(4000, 0.5), [0], 'deer'), heapOf(draw(4000, 2), [1], 'bear')]);
    expect(predictiveAt(fit, 'deer', [0]).scale).toBeCloseTo(0.5, 1);
    expect(predictiveAt(fit, 'bear', [1]).scale).toBeCloseTo(2, 1);
    // A species without animals takes the common spread.
    expect(predictiveAt(fit, 'elk', [0]).scale).toBeCloseTo(Math.sqrt((0.25 + 4) / 2), 1);
  });
});

describe('the logit of shares', () => {
  it('is inverse to inverseLogit, ends included', () => {
    for (let i = 0; i <= 1000; i++) expect(inverseLogit(logit(i / 1000))).toBeCloseTo(i / 1000, 12);
    expect([inverseLogit(-40), inverseLogit(40)]).toEqual([0, 1]);
  });

  it.each([
    [0.59, 0.05], [0.5, 0.13], [0.93, 0.035], [0.017, 0.02], [0.13, 0.12],
  ])('matches mean %d and spread %d, checked by drawing', (mean, sd) => {
    const { location, scale } = logitNormalFromMoments(mean, sd);
    const chance = seededRandom(21);
    const shares = Array.from({ length: 100_000 }, () => inverseLogit(location + scale * chance.normal()));
    const got = shares.reduce((total, x) => total + x, 0) / shares.length;
    const variance = shares.reduce((total, x) => total + (x - got) ** 2, 0) / shares.length;
    expect(Math.abs(got - mean)).toBeLessThan(0.03 * mean);
    expect(Math.abs(Math.sqrt(variance) - sd)).toBeLessThan(0.12 * sd);
  }); // prettier-ignore

  it('refuses a spread that no share has', () => {
    expect(() => logitNormalFromMoments(0.01, 0.2)).toThrow(
      expect.objectContaining({ code: 'yield.prior-spread' }),
    );
  });
});

it('divides as in the docstring', () => {
  const share = { takeHome: 0.6, fatSaved: 0, wholeCuts: 0.5, bone: 0.5, sinew: 0.5, damage: 0.5 };
  expect(divide(100, share, 'carcass')).toEqual({
    wholeCuts: 30, trim: 30, fatSaved: 0, bone: 20, sinew: 10, damage: 5, shrink: 5, meat: 60, takeHome: 60, loss: 40,
  }); // prettier-ignore
});
