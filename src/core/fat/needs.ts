/** Predicts the fat needed for trim that is not ground yet. */
import { normalQuantile } from '../stats/distributions.ts';
import type { FatEstimate } from './fat.ts';
import { ValidationError } from '../values/validation-error.ts';

/** One future grind. Trim in grams, fat as fractions. */
export interface GrindToCome {
  /** `sharedSd` is the component of `sd` that all animals of the species share (its mean yield); default 0. */
  readonly trim: { readonly mean: number; readonly sd: number; readonly sharedSd?: number };
  readonly trimFat: FatEstimate;
  /** Fat of the fat that is added. */
  readonly fatFat: number;
  readonly target: number;
}

/** A need in grams with its variance components and sensitivities. */
export interface NeedEstimate {
  readonly mean: number;
  /** From the weight of the trim and its fat. */
  readonly sd: number;
  /** From the weight of the trim: the animal's own component, and the one shared by its species. */
  readonly weight: { readonly ownSd: number; readonly sharedSd: number };
  /** Partial derivatives in grams per unit of the trim's fat and of the added fat's: both 0 or below. */
  readonly slopes: { readonly trimFat: number; readonly fatFat: number };
}

/**
 * Fat for one grind by the two-part balance, need = trim × (target − f) / (F − target), f and F the fat of trim and
 * of fat; 0 where the trim is fat enough. Standard deviation by the delta method, weight and fat of the trim
 * independent:
 *
 *     sd² = (need / trim × sdTrim)² + (trim / (F − target) × sdFat)²
 *
 * @throws ValidationError `grams.negative`, `share.out-of-range`, `fat.too-lean` (F is not above the target)
 * @example fatNeed({ trim: { mean: 10_000, sd: 0 }, trimFat: { mean: 0.02, sd: 0 }, fatFat: 0.9, target: 0.1 }).mean // 1000
 */
export function fatNeed({ trim, trimFat, fatFat, target }: GrindToCome): NeedEstimate {
  const { mean, sd, sharedSd = 0 } = trim;
  if (!(mean >= 0 && sd >= 0 && sharedSd >= 0 && Number.isFinite(mean + sd + sharedSd)))
    throw new ValidationError('grams.negative', 'trim');
  for (const [field, share] of Object.entries({ trimFat: trimFat.mean, fatFat, target }))
    if (!(share >= 0 && share <= 1)) throw new ValidationError('share.out-of-range', field);
  if (!(trimFat.sd >= 0 && trimFat.sd <= 1)) throw new ValidationError('share.out-of-range', 'trimFat.sd');
  if (fatFat <= target) throw new ValidationError('fat.too-lean', 'fatFat', { fat: fatFat });
  if (trimFat.mean >= target)
    return { mean: 0, sd: 0, weight: { ownSd: 0, sharedSd: 0 }, slopes: { trimFat: 0, fatFat: 0 } };
  const perGram = (target - trimFat.mean) / (fatFat - target);
  const shared = Math.min(sd, sharedSd);
  const slopes = { trimFat: -mean / (fatFat - target), fatFat: -(mean * perGram) / (fatFat - target) };
  return {
    mean: mean * perGram,
    sd: Math.hypot(perGram * sd, slopes.trimFat * trimFat.sd),
    weight: { ownSd: perGram * Math.sqrt(sd ** 2 - shared ** 2), sharedSd: perGram * shared },
    slopes,
  };
}

/**
 * Meat and fat that a recipe adds to so much trim, in proportion to it: need = trim × perTrim. What the trim's own fat is does not matter.
 * @param perTrim grams bought per gram of trim, 0 or more
 * @throws ValidationError `grams.negative`, `share.out-of-range`
 * @example recipeNeed({ mean: 7000, sd: 0 }, 3 / 7).mean // 3000: a recipe of 70 % game and 30 % pork
 */
export function recipeNeed({ mean, sd, sharedSd = 0 }: GrindToCome['trim'], perTrim: number): NeedEstimate {
  if (!(mean >= 0 && sd >= 0 && sharedSd >= 0 && Number.isFinite(mean + sd + sharedSd)))
    throw new ValidationError('grams.negative', 'trim');
  if (!(perTrim >= 0 && Number.isFinite(perTrim))) throw new ValidationError('share.out-of-range', 'perTrim');
  const shared = Math.min(sd, sharedSd);
  return {
    mean: mean * perTrim,
    sd: sd * perTrim,
    weight: { ownSd: perTrim * Math.sqrt(sd ** 2 - shared ** 2), sharedSd: perTrim * shared },
    slopes: { trimFat: 0, fatFat: 0 },
  };
}

/** All grinds of one animal. */
export interface AnimalNeeds {
  readonly species: string;
  readonly needs: readonly NeedEstimate[];
}

/** Uncertainty common to all needs. */
export interface SharedUncertainty {
  /** SD of the sum of the animals' trim fat, each times its weight; the weights in the order of the animals. */
  readonly trimFatSd: (weights: readonly number[]) => number;
  /** SD of the fat that is added: the same for every grind. */
  readonly fatFatSd: number;
}

/**
 * The total need. Weight errors within one animal, and the component shared within a species, are fully correlated: their
 * SDs add. The animals' own components are independent: their variances add. Trim fat enters by `trimFatSd`, added fat as
 * one unknown. The range is the central `level` of a normal, truncated at 0.
 * @throws ValidationError `probability.out-of-range`
 */
export function sumNeeds(
  animals: readonly AnimalNeeds[],
  level: number,
  { trimFatSd, fatFatSd }: SharedUncertainty,
): { low: number; mean: number; high: number } {
  if (!(level > 0 && level < 1)) throw new ValidationError('probability.out-of-range', 'level');
  const sum = (needs: readonly NeedEstimate[], value: (need: NeedEstimate) => number): number =>
    needs.reduce((total, need) => total + value(need), 0);
  const all = animals.flatMap(({ needs }) => needs);
  const mean = sum(all, (need) => need.mean);
  const own = animals.map(({ needs }) => sum(needs, ({ weight }) => weight.ownSd));
  const shared = [...Map.groupBy(animals, ({ species }) => species).values()].map((same) =>
    sum(
      same.flatMap(({ needs }) => needs),
      ({ weight }) => weight.sharedSd,
    ),
  );
  const byTrimFat = trimFatSd(animals.map(({ needs }) => sum(needs, ({ slopes }) => slopes.trimFat)));
  const byFatFat = fatFatSd * sum(all, ({ slopes }) => slopes.fatFat);
  const halfWidth = normalQuantile((1 + level) / 2) * Math.hypot(...own, ...shared, byTrimFat, byFatFat);
  return { low: Math.max(0, mean - halfWidth), mean, high: mean + halfWidth };
}

/** The need less what is on hand, for each end of the range, at least 0. @example toOrder({ low: 0, mean: 5, high: 9 }, 6) // { low: 0, mean: 0, high: 3 } */
export function toOrder(
  need: { readonly low: number; readonly mean: number; readonly high: number },
  onHandGrams: number,
): { low: number; mean: number; high: number } {
  const lacking = (grams: number): number => Math.max(0, grams - onHandGrams);
  return { low: lacking(need.low), mean: lacking(need.mean), high: lacking(need.high) };
}
