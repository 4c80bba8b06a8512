import { tQuantile } from './distributions.ts';
import { ValidationError } from '../values/validation-error.ts';

/** A group of measured values: count, mean, and sample standard deviation (divisor n − 1). */
export interface SampleSummary {
  readonly n: number;
  readonly mean: number;
  readonly sd: number;
}

export interface MeanDifference {
  /** Mean of `a` less mean of `b`. */
  difference: number;
  /** The confidence interval of the difference at the requested level. */
  low: number;
  high: number;
  /** The difference divided by its standard error; 0 where both are 0. */
  t: number;
  /** Degrees of freedom after Welch and Satterthwaite. */
  degrees: number;
}

/**
 * The difference of two independent groups' means with its confidence interval, for groups of unequal variance:
 * Welch's two-sample t with the Welch–Satterthwaite degrees of freedom (B. L. Welch, Biometrika 34 (1947) 28–35;
 * NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.5.3). It assumes roughly normal values or large
 * groups, and says nothing about the cause.
 * @param level of the range, 0.9 for "9 in 10"
 * @throws ValidationError `spread.too-few` (n < 2), `number.not-finite`, `spread.negative`, `share.out-of-range`
 * @example compareMeans({ n: 10, mean: 0.75, sd: 1.78901 }, { n: 10, mean: 2.33, sd: 2.002249 }, 0.95) // -1.58, -3.365 to 0.205
 */
export function compareMeans(a: SampleSummary, b: SampleSummary, level: number): MeanDifference {
  for (const [name, group] of Object.entries({ a, b })) {
    if (!(Number.isInteger(group.n) && group.n >= 2)) throw new ValidationError('spread.too-few', name);
    if (!Number.isFinite(group.mean) || !Number.isFinite(group.sd))
      throw new ValidationError('number.not-finite', name);
    if (group.sd < 0) throw new ValidationError('spread.negative', name);
  }
  if (!(level > 0 && level < 1)) throw new ValidationError('share.out-of-range', 'level');
  const difference = a.mean - b.mean;
  const [va, vb] = [a.sd ** 2 / a.n, b.sd ** 2 / b.n];
  const error = Math.sqrt(va + vb);
  if (error === 0)
    return {
      difference,
      low: difference,
      high: difference,
      t: difference === 0 ? 0 : Math.sign(difference) * Infinity,
      degrees: a.n + b.n - 2,
    };
  const degrees = (va + vb) ** 2 / (va ** 2 / (a.n - 1) + vb ** 2 / (b.n - 1));
  const halfWidth = tQuantile((1 + level) / 2, degrees) * error;
  return {
    difference,
    low: difference - halfWidth,
    high: difference + halfWidth,
    t: difference / error,
    degrees,
  };
}
