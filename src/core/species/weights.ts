/** Hanging weights of a species added by a shop, in proportion to those of its relative. */
import { ValidationError } from '../values/validation-error.ts';
import type { HangingWeights } from './species.ts';

/** Lighter than any carcass that hangs from a gambrel: our choice. */
const MIN_GRAMS = 1500;

/** What a shop states of a hanging carcass, in grams; null: in proportion to the relative. */
export interface WeightsInput {
  readonly typicalGrams: number;
  readonly leastGrams: number | null;
  readonly mostGrams: number | null;
}

/**
 * The five hanging weights of a species from its typical one: the relative's limits times typical over the
 * relative's typical. Limits that the shop states take precedence. Never below 1.5 kg, which no hanging carcass is.
 * @param relative whose limits are scaled; its source becomes part of the answer's
 * @throws ValidationError `species.weights` unless 1.5 kg <= least < typical < most
 * @example scaledWeights({ name: 'Elk', hangingGrams: { typical: 120000, least: 40000, … } }, { typicalGrams:
 * 60000, … }).least // 20000
 */
export function scaledWeights(
  relative: { readonly name: string; readonly hangingGrams: HangingWeights },
  wish: WeightsInput,
): HangingWeights {
  const { name, hangingGrams: own } = relative;
  const by = wish.typicalGrams / own.typical;
  const least = wish.leastGrams ?? Math.max(MIN_GRAMS, own.least * by);
  const most = wish.mostGrams ?? own.most * by;
  if (!(least >= MIN_GRAMS && least < wish.typicalGrams && wish.typicalGrams < most))
    throw new ValidationError('species.weights', 'typicalTyped', { least, typical: wish.typicalGrams, most });
  return {
    least,
    low: Math.min(wish.typicalGrams, Math.max(least, own.low * by)),
    typical: wish.typicalGrams,
    high: Math.max(wish.typicalGrams, Math.min(most, own.high * by)),
    most,
    grade: 'assumption',
    source: `the shop's own weight; limits that it did not give in proportion to ${name}: ${own.source}`,
    cites: own.cites,
  };
}
