/**
 * Fits one split of a shop among others: for each distance between shops (`between-shops.ts`) the regression under the prior
 * that the others leave, weighted by what their animals and the shop's own say of that distance. So a shop that is not like its
 * siblings is found out by its own animals.
 */
import { averageGuess, dot, times, type ShopGuess } from '../stats/between-shops.ts';
import { mixtureWeights, weightedMean } from '../stats/mixture.ts';
import { invert, zeros, type Square } from '../stats/positive-definite.ts';
import type { Column } from './columns.ts';
import { reweightPriors } from './conflict.ts';
import { conflictCovariance, withSpeciesVariances, type Fit } from './fit.ts';
import { crossProductsOf, PRIOR_DEGREES, type CrossProducts, type GroupStatistics, type Posterior } from './regression.ts'; // prettier-ignore

export function fitAmongShops(
  columns: readonly Column[],
  groups: readonly GroupStatistics[],
  guesses: readonly ShopGuess[],
): Fit {
  const products = crossProductsOf(columns.length, groups);
  const fits = guesses.map((guess) => fitUnder(columns, products, guess));
  const weights = mixtureWeights(guesses.map(({ logWeight }, k) => logWeight + (fits[k]?.logMarginal ?? 0)));
  const variance = weightedMean(
    fits.map((fit) => fit.variance),
    weights,
  );
  const { means, covariance } = averageGuess(
    fits.map((fit) => ({ means: fit.effects, covariance: scaled(fit.covariance, fit.variance) })),
    weights,
  );
  return withSpeciesVariances(
    {
      effects: means,
      covariance: scaled(covariance, 1 / variance),
      variance,
      degrees: fits[0]?.degrees ?? PRIOR_DEGREES,
      conflict: fits.reduce((sum, fit, k) => added(sum, scaled(fit.conflict, weights[k] ?? 0)), zeros(columns.length)), // prettier-ignore
    },
    groups,
  );
}

interface FitUnder extends Posterior {
  readonly conflict: Square;
  /** Logarithm of the marginal likelihood of the shop's own animals, up to a constant common to all guesses. */
  readonly logMarginal: number;
}

/** The regression under one guess, with, for effects that own animals show, the same heavy tails about it as `fitSplit` has about the published figures. */
function fitUnder(columns: readonly Column[], products: CrossProducts, guess: ShopGuess): FitUnder {
  const { means, covariance } = guess;
  const size = columns.length;
  const first = posteriorUnder(means, covariance, products);
  const guessed = columns.map((column, i) => {
    const variance = covariance.values[i * size + i] ?? 0;
    const isSeen = (products.gram.values[i * size + i] ?? 0) > 0;
    const robustWeight = isSeen ? robustWeightOf(column, variance) : 0;
    return { ...column, priorMean: means[i] ?? 0, variance, robustWeight };
  });
  const { columns: reweighted, betweenComponents } = reweightPriors(guessed, first.posterior);
  const wider = zeros(size);
  reweighted.forEach(({ variance }, i) => {
    wider.values[i * size + i] = variance - (guessed[i]?.variance ?? 0);
  });
  const { posterior } = posteriorUnder(means, added(covariance, wider), products);
  return {
    ...posterior,
    conflict: conflictCovariance(posterior.covariance, betweenComponents),
    logMarginal: first.logMarginal,
  };
}

/**
 * The chance that the guess of an effect is far off: that of the published figure, less as far as other shops' animals have put it
 * to the test already. Otherwise the first own animal would widen what they narrowed.
 */
function robustWeightOf({ robustWeight = 0, variance: stated }: Column, variance: number): number {
  return robustWeight * Math.min(1, variance / stated);
}

/** As `posteriorOf` with a full prior covariance, and the marginal likelihood |V0|^-1/2 |A|^-1/2 b^-a (Gelman et al., as there). */
function posteriorUnder(
  means: readonly number[],
  priorCovariance: Square,
  products: CrossProducts,
): { posterior: Posterior; logMarginal: number } {
  const { inverse: precision, logDeterminant: logPrior } = invert(priorCovariance);
  const pull = times(precision, means);
  const rhs = pull.map((value, i) => value + (products.moments[i] ?? 0));
  const { inverse: covariance, logDeterminant } = invert(added(precision, products.gram));
  const effects = times(covariance, rhs);
  const degrees = PRIOR_DEGREES + products.n;
  const squares = PRIOR_DEGREES - 2 + products.squares + dot(means, pull) - dot(effects, rhs);
  return {
    posterior: { effects, covariance, variance: squares / degrees, degrees },
    logMarginal: -(logPrior + logDeterminant + degrees * Math.log(squares)) / 2,
  };
}

function added(one: Square, other: Square): Square {
  return { size: one.size, values: one.values.map((value, i) => value + (other.values[i] ?? 0)) };
}

function scaled({ size, values }: Square, by: number): Square {
  return { size, values: values.map((value) => value * by) };
}
