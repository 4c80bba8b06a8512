import { describe, expect, it } from 'vitest';
import { averageGuess, guessesFrom, type ShopEvidence } from '../../../src/core/stats/between-shops.ts';
import { mixtureWeights } from '../../../src/core/stats/mixture.ts';
import { zeros } from '../../../src/core/stats/positive-definite.ts';

/** One effect, known as an estimate with its standard error. */
function shop(estimate: number, error: number): ShopEvidence {
  const information = zeros(1);
  information.values[0] = 1 / error ** 2;
  return { information, moments: [estimate / error ** 2] };
}
const APART = [0.05, 0.15, 0.35, 0.65, 1, 2];
/**
 * Estimates and standard errors of eight groups, Rubin 1981, as in Gelman et al., Bayesian Data Analysis, 3rd ed., table 5.2
 * (from memory).
 */
const EIGHT = [[28, 15], [8, 10], [-3, 16], [7, 11], [-1, 9], [1, 11], [18, 10], [12, 18]] as const; // prettier-ignore
const V = 100;

/** Weighted means at a given variance between groups, equations 5.20 there with a normal prior N(0, (1 - t) V) of the middle. */
function textbook(t: number, groups: readonly (readonly [number, number])[]) {
  const shared = Math.max(1 - t, 1e-9) * V;
  const weights = groups.map(([, error]) => 1 / (error ** 2 + t * V));
  const precision = weights.reduce((sum, weight) => sum + weight, 1 / shared);
  const mean = groups.reduce((sum, [y], i) => sum + y * (weights[i] ?? 0), 0) / precision;
  return { mean, variance: t * V + 1 / precision };
}

/** Log density of all estimates: jointly normal with the covariance (1 - t) V between groups, by Gaussian elimination. */
function logDensity(t: number, groups: readonly (readonly [number, number])[]): number {
  const n = groups.length;
  const rows = groups.map(([y, error], i) => [
    ...groups.map((_, j) => Math.max(1 - t, 1e-9) * V + (i === j ? t * V + error ** 2 : 0)),
    y,
  ]);
  let log = 0;
  for (let k = 0; k < n; k++) {
    const pivot = rows[k] as number[];
    log -= Math.log(pivot[k] as number) / 2;
    for (let i = k + 1; i < n; i++) {
      const row = rows[i] as number[];
      const times = (row[k] as number) / (pivot[k] as number);
      for (let j = k; j <= n; j++) row[j] = (row[j] as number) - times * (pivot[j] as number);
    }
    log -= (pivot[n] as number) ** 2 / (pivot[k] as number) / 2;
  }
  return log;
}

describe('what the shops of one owner tell of one more', () => {
  const prior = { means: [0], variances: [V] };
  const guesses = guessesFrom(
    prior,
    EIGHT.map(([y, error]) => shop(y, error)),
  );

  it('is the textbook’s normal hierarchy at each distance', () => {
    expect(guesses.map(({ apart }) => apart)).toEqual(APART);
    for (const { apart, means, covariance } of guesses) {
      const { mean, variance } = textbook(apart, EIGHT);
      expect(means[0]).toBeCloseTo(mean, 8);
      expect(covariance.values[0]).toBeCloseTo(variance, 6);
    }
    // The eight were typed in rightly: their complete pooling is published as 7.7 with variance 16.6 (section 5.5 there).
    const precision = EIGHT.reduce((sum, [, error]) => sum + 1 / error ** 2, 0);
    expect(EIGHT.reduce((sum, [y, error]) => sum + y / error ** 2, 0) / precision).toBeCloseTo(7.7, 1);
    expect(1 / precision).toBeCloseTo(16.6, 1);
  });

  it('weighs distances by the density of all estimates together', () => {
    const [first] = guesses;
    const weightOf = [0.12, 0.16, 0.18, 0.2, 0.27, 0.07];
    guesses.forEach(({ apart, logWeight }, i) => {
      const prior = Math.log(weightOf[i] as number) - Math.log(weightOf[0] as number);
      expect(logWeight - (first?.logWeight ?? 0)).toBeCloseTo(
        prior + logDensity(apart, EIGHT) - logDensity(0.05, EIGHT),
        7,
      );
    });
  });

  const chances = (shops: readonly ShopEvidence[]): number[] =>
    mixtureWeights(guessesFrom(prior, shops).map(({ logWeight }) => logWeight));

  it('finds shops alike that agree, and apart that do not', () => {
    const alike = chances([9, 10, 10, 11, 10, 9, 11].map((y) => shop(y, 1)));
    const apart = chances([-18, 10, 2, 24, -9, -25, 15].map((y) => shop(y, 1)));
    expect(alike[0]).toBeGreaterThan(0.9);
    expect((apart[4] ?? 0) + (apart[5] ?? 0)).toBeGreaterThan(0.9);
  });

  it('narrows the one more shop where they agree, and does not where they do not', () => {
    const sdOf = (ys: readonly number[]): number => {
      const all = guessesFrom(
        prior,
        ys.map((y) => shop(y, 1)),
      );
      return Math.sqrt(
        averageGuess(all, mixtureWeights(all.map(({ logWeight }) => logWeight))).covariance.values[0] ?? 0,
      );
    };
    expect(sdOf([9, 10, 10, 11, 10, 9, 11])).toBeLessThan(4);
    expect(sdOf([-18, 10, 2, 24, -9, -25, 15])).toBeGreaterThan(10);
  });

  it('leaves an effect that no shop told of as it was', () => {
    const information = zeros(2);
    information.values[0] = 1;
    for (const { apart, means, covariance } of guessesFrom({ means: [0, 3], variances: [1, 2] }, [
      { information, moments: [1, 0] },
    ])) {
      expect(means[1]).toBe(3);
      expect(covariance.values[3]).toBe(2 * Math.max(1, apart));
      expect(covariance.values[1]).toBe(0);
    }
  });
});
