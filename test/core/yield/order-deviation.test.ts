import { describe, expect, it } from 'vitest';
import { tQuantile } from '../../../src/core/stats/distributions.ts';
import {
  predictShare,
  predictDeviation,
  logitDeviation,
  type DeviationPrior,
} from '../../../src/core/yield/order-deviation.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { logit, inverseLogit } from '../../../src/core/yield/tree.ts';
import { ValidationError } from '../../../src/core/values/validation-error.ts';

const PRIOR: DeviationPrior = Object.freeze({ spread: 1, priorSampleSize: 2, priorDegrees: 2 });

describe('predicting the deviation of the next result', () => {
  it('matches the worked example', () => {
    const { location, scale, degrees } = predictDeviation(Object.freeze([1, 3]) as number[], PRIOR);
    expect([location, degrees]).toEqual([1, 4]);
    expect(scale).toBeCloseTo(Math.sqrt(2.5), 12);
  });

  it('is the same learned one by one as at once', () => {
    // Conjugate: what is believed after one result is a prior for the next (its mean shifted to the middle).
    const results = [0.3, -0.2, 0.5, 0.1];
    const { location, scale } = predictDeviation(results, PRIOR);
    let [mean, worth, degrees, squares] = [0, 2, 2, 2];
    for (const result of results) {
      squares += (worth / (worth + 1)) * (result - mean) ** 2;
      mean += (result - mean) / (worth + 1);
      [worth, degrees] = [worth + 1, degrees + 1];
    }
    expect(location).toBeCloseTo(mean, 12);
    expect(scale).toBeCloseTo(Math.sqrt((squares / degrees) * (1 + 1 / worth)), 12);
  });

  it('covers the next result at its level, in shops drawn from the prior', () => {
    const chance = seededRandom(5);
    const [shops, level] = [4000, 0.8];
    let held = 0;
    for (let shop = 0; shop < shops; shop++) {
      const spread = Math.sqrt(PRIOR.priorDegrees / (2 * chance.gamma(PRIOR.priorDegrees / 2)));
      const mean = (spread / Math.sqrt(PRIOR.priorSampleSize)) * chance.normal();
      const next = () => mean + spread * chance.normal();
      const { location, scale, degrees } = predictDeviation([next(), next(), next()], PRIOR);
      if (Math.abs(next() - location) <= scale * tQuantile((1 + level) / 2, degrees)) held++;
    }
    expect(Math.abs(held / shops - level)).toBeLessThan(1.96 * Math.sqrt((level * (1 - level)) / shops));
  });

  it('refuses a non-finite result, and an invalid prior', () => {
    expect(() => predictDeviation([NaN], PRIOR)).toThrow(
      new ValidationError('number.not-finite', 'results[0]'),
    );
    expect(() => predictDeviation([], { ...PRIOR, spread: 0 })).toThrow(ValidationError);
  });
});

describe('an ordered share', () => {
  it('deviates by a tenth when one half became 55 in a hundred', () => {
    expect(logitDeviation(0.5, 0.55)).toBeCloseTo(0.1, 2);
    expect(logitDeviation(0.3, 0.3)).toBe(0);
    expect(() => logitDeviation(0, 0.1)).toThrow(ValidationError);
  });

  it.each([0.1, 0.4, 0.8])('is recovered from its deviation (%d)', (ordered) => {
    const off = { location: logitDeviation(ordered, 0.35), scale: 0.1, degrees: 9 };
    const about = predictShare(ordered, off);
    expect(inverseLogit(about.location)).toBeCloseTo(0.35, 12);
    expect(about.degrees).toBe(9);
    expect(about.location - logit(ordered)).toBeCloseTo(
      off.location / Math.sqrt(ordered * (1 - ordered)),
      12,
    );
  });
});
