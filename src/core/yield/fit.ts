/** Fits one split: Bayesian linear regression on the effects of `columns.ts` with robust priors, in closed form. */
import { zeros, type Square } from '../stats/positive-definite.ts';
import type { Column } from './columns.ts';
import { reweightPriors } from './conflict.ts';
import {
  crossProductsOf,
  meanAt,
  posteriorOf,
  sumAt,
  type GroupStatistics,
  type Posterior,
} from './regression.ts';
import { speciesVarianceOf, type ResidualSums, type SpeciesVariance } from './species-variance.ts';

export { meanAt, type GroupStatistics } from './regression.ts';

/** The posterior of one split, for `predictiveAt`. */
export interface Fit extends Posterior {
  /** Covariance of the effects between mixture components, in addition to `covariance` (absolute). */
  readonly conflict: Square;
  /** Variance of each species with animals of its own, shrunk towards the common one. */
  readonly bySpecies: ReadonlyMap<string, SpeciesVariance>;
}

/**
 * The posterior under robust priors: fits with the stated priors, finds those that the animals contradict, and fits again
 * with the adjusted variances. The order of animals and columns does not matter.
 */
export function fitSplit(columns: readonly Column[], groups: readonly GroupStatistics[]): Fit {
  const products = crossProductsOf(columns.length, groups);
  const { columns: reweighted, betweenComponents } = reweightPriors(columns, posteriorOf(columns, products));
  const posterior = posteriorOf(reweighted, products);
  return withSpeciesVariances(
    { ...posterior, conflict: conflictCovariance(posterior.covariance, betweenComponents) },
    groups,
  );
}

/** Adds the variance of each species with animals of its own. */
export function withSpeciesVariances(fit: Omit<Fit, 'bySpecies'>, groups: readonly GroupStatistics[]): Fit {
  const variances = [...residualsOf(fit, groups)].map(
    ([species, residuals]) => [species, speciesVarianceOf(fit.variance, residuals)] as const,
  );
  return { ...fit, bySpecies: new Map(variances) };
}

/** Variance of this kind's mean from unresolved conflicts, in addition to that of `meanAt` (absolute). */
export function conflictVarianceAt(
  { conflict }: Pick<Fit, 'conflict'>,
  columnIndices: readonly number[],
): number {
  return sumAt(conflict, columnIndices);
}

/**
 * A shift of one effect by 1 shifts the others by their covariance with it over its variance: where the mean of a kind is
 * well known, the other effects compensate an unresolved one.
 */
export function conflictCovariance({ size, values }: Square, betweenComponents: readonly number[]): Square {
  // One product of matrices, D'D: row k of D is the covariances with effect k, scaled.
  const product = zeros(size);
  for (const [k, between] of betweenComponents.entries()) {
    if (between === 0) continue;
    const row = values.slice(k * size, (k + 1) * size);
    const scale = Math.sqrt(between) / (row[k] as number);
    for (let i = 0; i < size; i++) row[i] = (row[i] as number) * scale;
    for (let i = 0; i < size; i++)
      for (let j = 0; j <= i; j++)
        product.values[i * size + j] =
          (product.values[i * size + j] as number) + (row[i] as number) * (row[j] as number);
  }
  for (let i = 0; i < size; i++)
    for (let j = 0; j < i; j++) product.values[j * size + i] = product.values[i * size + j] as number;
  return product;
}

/**
 * The predictive distribution of one more animal of this kind, in standard units: Student's t. Without data it is the
 * prior itself.
 */
export function predictiveAt(
  fit: Fit,
  species: string,
  columnIndices: readonly number[],
): { location: number; scale: number; degrees: number } {
  const mean = meanAt(fit, columnIndices);
  const own = fit.bySpecies.get(species) ?? fit;
  return {
    location: mean.location,
    scale: Math.sqrt(own.variance * (1 + mean.variance) + conflictVarianceAt(fit, columnIndices)),
    degrees: Math.min(own.degrees, fit.degrees),
  };
}

function residualsOf(
  fit: Omit<Fit, 'bySpecies'>,
  groups: readonly GroupStatistics[],
): ReadonlyMap<string, ResidualSums> {
  const residuals = new Map<string, { squares: number; n: number }>();
  for (const { columnIndices, species, n, sum, squares } of groups) {
    const { location, variance } = meanAt(fit, columnIndices);
    const total = residuals.get(species) ?? { squares: 0, n: 0 };
    // The last term restores what the fitted mean took out of the residuals.
    const meanVariance = variance * fit.variance + conflictVarianceAt(fit, columnIndices);
    total.squares += squares - 2 * location * sum + n * location * location + n * meanVariance;
    total.n += n;
    residuals.set(species, total);
  }
  return residuals;
}
