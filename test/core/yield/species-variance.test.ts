import { describe, expect, it } from 'vitest';
import { speciesVarianceOf } from '../../../src/core/yield/species-variance.ts';

describe('the variance of one species', () => {
  it('is the common one before any animal', () => {
    expect(speciesVarianceOf(3, { n: 0, squares: 0 }).variance).toBeCloseTo(3, 12);
  });

  it('stays near the common one for animals of usual variance', () => {
    for (const n of [1, 3, 5, 10, 40]) {
      const { variance } = speciesVarianceOf(2, { n, squares: 2 * n });
      expect(variance / 2).toBeGreaterThan(0.9);
      expect(variance / 2).toBeLessThan(1.08);
    }
  });

  it("becomes the species' own as its animals contradict the common one", () => {
    const twice = [1, 5, 10, 400].map((n) => speciesVarianceOf(1, { n, squares: 4 * n }).variance);
    const half = [1, 5, 10, 400].map((n) => speciesVarianceOf(1, { n, squares: n / 4 }).variance);
    for (let i = 1; i < twice.length; i++) {
      expect(twice[i]).toBeGreaterThan(twice[i - 1] as number);
      expect(half[i]).toBeLessThan(half[i - 1] as number);
    }
    expect(twice[2]).toBeGreaterThan(3);
    expect(twice.at(-1)).toBeCloseTo(4, 1);
    expect(half.at(-1)).toBeCloseTo(0.25, 1);
  });

  it('weighs its components by the densities of the residuals', () => {
    // The marginal density of the sum of squares under one component is that of a scaled F with n and 50 degrees
    // (a chi-square over an inverse chi-square): integrated over the variance on a grid instead of by its formula.
    const [n, squares] = [4, 13];
    const components = [0.25, 1, 4].map((times, i) => {
      let density = 0;
      for (let log = -6; log <= 6; log += 0.001) {
        const v = Math.exp(log);
        const prior = times ** 25 * v ** -25 * Math.exp((-50 * times) / (2 * v));
        density += prior * v ** (-n / 2) * Math.exp(-squares / (2 * v));
      }
      return { log: Math.log((50 * times + squares) / 54), weight: (i === 1 ? 0.9 : 0.05) * density };
    });
    const total = components.reduce((sum, { weight }) => sum + weight, 0);
    const expected = Math.exp(components.reduce((sum, { log, weight }) => sum + (log * weight) / total, 0));
    expect(speciesVarianceOf(1, { n, squares }).variance).toBeCloseTo(expected, 6);
  });
});
