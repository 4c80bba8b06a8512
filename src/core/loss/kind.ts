/** What is assumed of a kind of product before the shop weighed its own (`resources/loss-assumptions.json`). */
import type { Sourced } from '../species/species.ts';
import { ValidationError } from '../values/validation-error.ts';
import { normalQuantile } from '../stats/distributions.ts';
import { logit } from '../yield/tree.ts';

export interface LossKind extends Sourced {
  readonly code: string;
  readonly name: string;
  /** The means of 8 products in 10 of this kind lie between, as finished ÷ raw. Always an assumption. */
  readonly low: number;
  readonly high: number;
  /** Typical SD from batch to batch on the logit scale. */
  readonly batchSd: number;
}

/** Normal on the logit scale: where the mean of a product of this kind lies. */
export interface KindPrior {
  readonly location: number;
  readonly scale: number;
  readonly batchSd: number;
  /** SD of the logarithm of the ratio between a product's own spread and `batchSd`. */
  readonly logSd: number;
}

/** Share of the variance between products of a kind that all products of a shop share: its smokehouse, its hand. Our choice. */
export const SHOP_SHARE = 0.3;
/** Prior degrees of freedom of the typical spread where products inform others: few, so that a shop's own products soon tell. Our choice. */
export const SPREAD_BATCHES = 2;
/**
 * Assumption: 8 products in 10 spread between 0.4 and 2.5 times as far as is typical. Weakly informative (Gelman, Bayesian Analysis 1:515,
 * 2006; from memory): wider, it counts on spreads that no smokehouse has, and the first batches of a product get too wide a range; narrower,
 * a product that is unlike others is learned too late (`npm run calibrate`: batches half and twice as far apart).
 */
const LOG_SD = 0.7;

const ASSUMED_LEVEL = 0.8;

/** @throws ValidationError `loss.assumption` (no yields between 0 and 1, reversed, or a spread not above 0) */
export function priorOf({ code, low, high, batchSd }: LossKind): KindPrior {
  if (!(low > 0 && low < high && high < 1 && batchSd > 0)) throw new ValidationError('loss.assumption', code);
  const reach = normalQuantile((1 + ASSUMED_LEVEL) / 2);
  return {
    location: (logit(low) + logit(high)) / 2,
    scale: (logit(high) - logit(low)) / (2 * reach),
    batchSd,
    logSd: LOG_SD,
  };
}
