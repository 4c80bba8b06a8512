/** Fits one split: Bayesian linear regression on the effects of `yield-columns.ts` with robust priors, all closed form. */
import type { Matrix } from 'ml-matrix';
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

/** What was learned of one split; feed it to `foretell`. */
export interface Fit extends Posterior {
  /** The effects' covariance that comes from not knowing which stated priors hold, over and above `covariance` (absolute). */
  readonly conflict: Matrix;
  /** The spread of each species with animals of its own, drawn towards the common one. */
  readonly bySpecies: ReadonlyMap<string, SpeciesVariance>;
}

/**
 * The posterior under robust priors: fits with the stated priors, finds those that the animals contradict, fits again
 * with the prior variances that the animals bear out. The order of the animals and of the columns changes nothing.
 */
export function fitSplit(columns: readonly Column[], groups: readonly GroupStatistics[]): Fit {
  const products = crossProductsOf(columns.length, groups);
  const { columns: reweighted, betweenComponents } = reweightPriors(columns, posteriorOf(columns, products));
  const posterior = posteriorOf(reweighted, products);
  const fit = { ...posterior, conflict: conflictCovariance(posterior.covariance, betweenComponents) };
  const variances = [...residualsOf(fit, groups)].map(
    ([species, residuals]) => [species, speciesVarianceOf(fit.variance, residuals)] as const,
  );
  return { ...fit, bySpecies: new Map(variances) };
}

/** The variance of this kind's mean that comes from undecided conflicts, over and above that of `meanAt` (absolute). */
export function conflictVarianceAt(
  { conflict }: Pick<Fit, 'conflict'>,
  columnIndices: readonly number[],
): number {
  return sumAt(conflict, columnIndices);
}

/**
 * Moving the mean of one effect by 1 moves the others by their covariance with it over its variance: where the mean of
 * a kind is well known, an undecided effect is made up for by the others.
 */
function conflictCovariance(covariance: Matrix, betweenComponents: readonly number[]): Matrix {
  // One product of matrices, D'D: row i of D is the covariances with effect i, scaled.
  const scaled = covariance.clone();
  for (const [i, between] of betweenComponents.entries())
    scaled.mulRow(i, Math.sqrt(between) / covariance.get(i, i));
  return scaled.transpose().mmul(scaled);
}

/**
 * The predictive distribution of one more animal of this kind, in standard measure: Student's t.
 * With no animals weighed it is the prior itself.
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
    // The last term is what the fitted mean took out of the residuals.
    const meanVariance = variance * fit.variance + conflictVarianceAt(fit, columnIndices);
    total.squares += squares - 2 * location * sum + n * location * location + n * meanVariance;
    total.n += n;
    residuals.set(species, total);
  }
  return residuals;
}
