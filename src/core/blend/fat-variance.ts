/** The variance of a batch's fat mass, xᵀΣx. */
import type { BlendSource } from './types.ts';
import { ValidationError } from '../values/validation-error.ts';

/** The covariance of the fat of two sources, by their indices. */
export interface CovariancePair {
  readonly one: number;
  readonly other: number;
  readonly covariance: number;
}

/** Relative rounding by which a covariance may exceed the product of the two SDs. */
const ROUNDING_TOLERANCE = 1e-9;

/**
 * The pairs of sources with non-zero covariance, each once. One or both sources of a pair may name it.
 * @throws ValidationError `fat.unknown-source`, `number.not-finite`, `share.out-of-range` (|covariance| above the product of
 *   both spreads, or two figures for one pair)
 */
export function covariancePairsOf(sources: readonly BlendSource[]): CovariancePair[] {
  const indexById = new Map(sources.map(({ id }, i) => [id, i]));
  const covariancePairs: CovariancePair[] = [];
  sources.forEach((source, one) => {
    for (const [id, covariance] of Object.entries(source.fatCovariance ?? {})) {
      const field = `${source.id}.fatCovariance.${id}`;
      const other = indexById.get(id);
      if (other === undefined || other === one)
        throw new ValidationError('fat.unknown-source', field, { id });
      if (!Number.isFinite(covariance)) throw new ValidationError('number.not-finite', field);
      const partner = sources[other] as BlendSource;
      const most = (source.fatSd ?? 0) * (partner.fatSd ?? 0);
      const reverse = partner.fatCovariance?.[source.id];
      const discrepancy = Math.abs((reverse ?? covariance) - covariance);
      if (Math.abs(covariance) > most * (1 + ROUNDING_TOLERANCE) || discrepancy > most * ROUNDING_TOLERANCE)
        throw new ValidationError('share.out-of-range', field, { covariance });
      if (covariance !== 0 && (reverse === undefined || one < other))
        covariancePairs.push({ one, other, covariance });
    }
  });
  return covariancePairs;
}

/** Variance of the fat mass xᵀΣx in grams², x the grams of each source and Σ the covariance of their fat. */
export function fatMassVariance(
  {
    sources,
    covariancePairs,
  }: { readonly sources: readonly BlendSource[]; readonly covariancePairs: readonly CovariancePair[] },
  grams: readonly number[],
): number {
  const own = sources.reduce((sum, source, i) => sum + ((source.fatSd ?? 0) * (grams[i] as number)) ** 2, 0);
  const shared = covariancePairs.reduce(
    (sum, { one, other, covariance }) =>
      sum + 2 * covariance * (grams[one] as number) * (grams[other] as number),
    0,
  );
  return Math.max(0, own + shared);
}

/** Σx, half the gradient of that variance. */
export function fatMassSlopes(
  {
    sources,
    covariancePairs,
  }: { readonly sources: readonly BlendSource[]; readonly covariancePairs: readonly CovariancePair[] },
  grams: readonly number[],
): number[] {
  const slopes = sources.map((source, i) => (source.fatSd ?? 0) ** 2 * (grams[i] as number));
  for (const { one, other, covariance } of covariancePairs) {
    slopes[one] = (slopes[one] as number) + covariance * (grams[other] as number);
    slopes[other] = (slopes[other] as number) + covariance * (grams[one] as number);
  }
  return slopes;
}
