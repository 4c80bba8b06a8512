/** A fat test of a finished batch, the estimates that it updates, and their validation. */
import { requireNonNegative, ValidationError } from '../values/validation-error.ts';

/** Fat as a fraction of the weight. */
export interface FatEstimate {
  readonly mean: number;
  readonly sd: number;
}

export interface CorrelatedFatEstimate extends FatEstimate {
  readonly id: string;
  /** Covariance with other sources by their id, in fractions²; absent means none. */
  readonly covariance?: Readonly<Record<string, number>>;
}

/** A finished batch and its fat test; grams of each source in it. */
export interface FatTest {
  readonly parts: readonly { readonly id: string; readonly grams: number }[];
  readonly measuredFat: number;
  /** Standard deviation of the test's own error; may be 0 where the estimates have variance. */
  readonly measuredSd: number;
}

/** Each source's share of the batch; a source listed twice counts with both weights. */
export function sharesOf(estimates: readonly CorrelatedFatEstimate[], test: FatTest): number[] {
  if (estimates.length === 0) throw new ValidationError('estimates.empty', 'estimates');
  if (test.parts.length === 0) throw new ValidationError('parts.empty', 'parts');
  const at = new Map<string, number>();
  estimates.forEach((estimate, i) => {
    if (at.has(estimate.id))
      throw new ValidationError('id.duplicate', `estimates[${i}].id`, { id: estimate.id });
    at.set(estimate.id, i);
    if (!Number.isFinite(estimate.mean))
      throw new ValidationError('number.not-finite', `estimates[${i}].mean`);
    requireNonNegative(estimate.sd, `estimates[${i}].sd`);
  });
  const grams = estimates.map(() => 0);
  test.parts.forEach((part, i) => {
    const index = at.get(part.id);
    if (index === undefined)
      throw new ValidationError('fat.unknown-source', `parts[${i}].id`, { id: part.id });
    if (!Number.isFinite(part.grams)) throw new ValidationError('number.not-finite', `parts[${i}].grams`);
    if (part.grams < 0) throw new ValidationError('grams.negative', `parts[${i}].grams`);
    grams[index] = (grams[index] as number) + part.grams;
  });
  const total = grams.reduce((sum, part) => sum + part, 0);
  if (total === 0) throw new ValidationError('grams.not-positive', 'parts');
  return grams.map((part) => part / total);
}
