import { ValidationError } from '../values/validation-error.ts';

/** An individuals chart, in the unit of the values except `outside`. */
export interface IndividualsChart {
  /** Mean of the values. */
  centre: number;
  lower: number;
  upper: number;
  /** Mean absolute step from each value to the next. */
  meanMovingRange: number;
  /** Positions (0 = first) of the values beyond a limit. */
  outside: number[];
}

/**
 * Mean range of two normal draws in standard deviations: 2/√π, rounded as in the tables.
 * Source: NIST/SEMATECH e-Handbook 6.3.2.2.
 */
const D2_OF_TWO = 1.128;

/**
 * Limits within which single results vary by chance: mean ± 3·(mean moving range)/1.128, in the order of
 * measurement. Source: NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.2. The limits are not clamped to 0 or
 * 1: a lower limit below zero fat means that no low result can be an outlier.
 * @throws ValidationError `chart.too-few` below 2 values, `number.not-finite`, `number.too-large`
 * @example individualsChart([10, 12, 11]) // centre 11, meanMovingRange 1.5, lower 7.01, upper 14.99
 */
export function individualsChart(values: readonly number[]): IndividualsChart {
  if (values.length < 2)
    throw new ValidationError('chart.too-few', 'values', { n: values.length, fewest: 2 });
  values.forEach((value, i) => {
    if (!Number.isFinite(value)) throw new ValidationError('number.not-finite', `values[${i}]`);
  });
  const centre = mean(values);
  const meanMovingRange = mean(values.slice(1).map((value, i) => Math.abs(value - (values[i] as number))));
  const halfWidth = (3 * meanMovingRange) / D2_OF_TWO;
  const lower = centre - halfWidth;
  const upper = centre + halfWidth;
  if (!Number.isFinite(upper - lower)) throw new ValidationError('number.too-large', 'values');
  // Equal values give limits equal to the mean, whose last bit may be off: that is no outlier.
  const rounding = 8 * Number.EPSILON * largest(values);
  const outside = values.flatMap((value, i) =>
    value < lower - rounding || value > upper + rounding ? [i] : [],
  );
  return { centre, lower, upper, meanMovingRange, outside };
}

/** Corrected once by the mean of its own residuals. */
function mean(values: readonly number[]): number {
  const rough = values.reduce((total, value) => total + value, 0) / values.length;
  return rough + values.reduce((total, value) => total + (value - rough), 0) / values.length;
}

/** Largest absolute value. A loop: a long season exceeds the argument limit of `Math.max`. */
function largest(values: readonly number[]): number {
  return values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
}
