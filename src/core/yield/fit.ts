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
import { spreadOf, type Residuals, type Spread } from './spread.ts';

export { meanAt, type GroupStatistics } from './regression.ts';

/** What was learned of one split; feed it to `foretell`. */
export interface Fit extends Posterior {
  /** The effects' covariance that comes from not knowing which stated priors hold, over and above `covariance` (absolute). */
  readonly conflict: Matrix;
  /** The spread of each species with animals of its own, drawn towards the common one. */
  readonly bySpecies: ReadonlyMap<string, Spread>;
}

/**
 * The posterior under robust priors: fits with the stated priors, finds those that the animals contradict, fits again
 * with the prior variances that the animals bear out. The order of the animals and of the columns changes nothing.
 */
export function fitSplit(columns: readonly Column[], heaps: readonly GroupStatistics[]): Fit {
  const products = crossProductsOf(columns.length, heaps);
  const { columns: reweighted, betweenComponents } = reweightPriors(columns, posteriorOf(columns, products));
  const posterior = posteriorOf(reweighted, products);
  const fit = { ...posterior, conflict: conflictCovariance(posterior.covariance, betweenComponents) };
  const spreads = [...residualsOf(fit, heaps)].map(
    ([species, residuals]) => [species, spreadOf(fit.variance, residuals)] as const,
  );
  return { ...fit, bySpecies: new Map(spreads) };
}

/** The variance of this kind's mean that comes from undecided conflicts, over and above that of `meanAt` (absolute). */
export function conflictVarianceAt({ conflict }: Pick<Fit, 'conflict'>, places: readonly number[]): number {
  return sumAt(conflict, places);
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
export function foretell(
  fit: Fit,
  species: string,
  places: readonly number[],
): { middle: number; scale: number; degrees: number } {
  const mean = meanAt(fit, places);
  const own = fit.bySpecies.get(species) ?? fit;
  return {
    middle: mean.middle,
    scale: Math.sqrt(own.variance * (1 + mean.variance) + conflictVarianceAt(fit, places)),
    degrees: Math.min(own.degrees, fit.degrees),
  };
}

function residualsOf(
  fit: Omit<Fit, 'bySpecies'>,
  heaps: readonly GroupStatistics[],
): ReadonlyMap<string, Residuals> {
  const residuals = new Map<string, { squares: number; n: number }>();
  for (const { places, species, n, sum, squares } of heaps) {
    const { middle, variance } = meanAt(fit, places);
    const total = residuals.get(species) ?? { squares: 0, n: 0 };
    // The last term is what the fitted mean took out of the residuals.
    const ofMean = variance * fit.variance + conflictVarianceAt(fit, places);
    total.squares += squares - 2 * middle * sum + n * middle * middle + n * ofMean;
    total.n += n;
    residuals.set(species, total);
  }
  return residuals;
}
