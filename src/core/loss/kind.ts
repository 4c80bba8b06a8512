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
}

const ASSUMED_LEVEL = 0.8;

/** @throws ValidationError `loss.assumption` (no yields between 0 and 1, reversed, or a spread not above 0) */
export function priorOf({ code, low, high, batchSd }: LossKind): KindPrior {
  if (!(low > 0 && low < high && high < 1 && batchSd > 0)) throw new ValidationError('loss.assumption', code);
  const reach = normalQuantile((1 + ASSUMED_LEVEL) / 2);
  return {
    location: (logit(low) + logit(high)) / 2,
    scale: (logit(high) - logit(low)) / (2 * reach),
    batchSd,
  };
}
