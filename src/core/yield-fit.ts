/** Fits one split: Bayesian linear regression on the effects of `yield-columns.ts` with robust priors, all closed form. */
import type { Column } from './yield-columns.ts';
import { reweightPriors } from './yield-conflict.ts';
import { meanAt, posteriorOf, type Heap, type Posterior } from './yield-regression.ts';
import { spreadOf, type Residuals, type Spread } from './yield-spread.ts';

export { meanAt, type Heap } from './yield-regression.ts';

/** What was learned of one split; feed it to `foretell`. */
export interface Fit extends Posterior {
  /** By column: the posterior variance that comes from not knowing whether its stated prior holds (absolute). */
  readonly betweenComponents: readonly number[];
  /** The spread of each species with animals of its own, drawn towards the common one. */
  readonly bySpecies: ReadonlyMap<string, Spread>;
}

/**
 * The posterior under robust priors: fits with the stated priors, finds those that the animals contradict, fits again
 * with the prior variances that the animals bear out. The order of the animals and of the columns changes nothing.
 */
export function fitSplit(columns: readonly Column[], heaps: readonly Heap[]): Fit {
  const { columns: reweighted, betweenComponents } = reweightPriors(columns, posteriorOf(columns, heaps));
  const fit = { ...posteriorOf(reweighted, heaps), betweenComponents };
  const spreads = [...residualsOf(fit, heaps)].map(
    ([species, residuals]) => [species, spreadOf(fit.variance, residuals)] as const,
  );
  return { ...fit, bySpecies: new Map(spreads) };
}

/**
 * The variance of this kind's mean that comes from undecided conflicts, over and above that of `meanAt` (absolute).
 * Moving the mean of one effect by 1 moves the others by their covariance with it over its variance: where the mean of
 * the kind is well known, an undecided effect is made up for by the others.
 */
export function conflictVarianceAt(
  { betweenComponents, covariance }: Pick<Fit, 'betweenComponents' | 'covariance'>,
  places: readonly number[],
): number {
  return betweenComponents.reduce((total, between, i) => {
    if (between === 0) return total;
    const moved = places.reduce((sum, j) => sum + covariance.get(j, i), 0) / covariance.get(i, i);
    return total + between * moved * moved;
  }, 0);
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

function residualsOf(fit: Omit<Fit, 'bySpecies'>, heaps: readonly Heap[]): ReadonlyMap<string, Residuals> {
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
