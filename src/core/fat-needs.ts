/** How much fat will be wanted for trim that is not ground yet, and how sure that is. */
import { normalQuantile } from './distributions.ts';
import type { FatGuess } from './fat.ts';
import { CoreProblem } from './problem.ts';

/** One grind that is to come. Trim in grams, its fat and the rest as fractions. */
export interface GrindToCome {
  readonly trim: { readonly mean: number; readonly sd: number };
  readonly trimFat: FatGuess;
  /** Fat of the fat that is added. */
  readonly fatFat: number;
  readonly target: number;
}

export interface NeedGuess {
  readonly mean: number;
  readonly sd: number;
}

/**
 * Fat for one grind by the two-part balance, need = trim × (target − f) / (F − target), f and F the fat of trim and of
 * fat; nothing where the trim is fat enough. Spread by the delta method, weight and fat of the trim independent:
 *
 *     sd² = (need / trim × sdTrim)² + (trim / (F − target) × sdFat)²
 *
 * @throws CoreProblem `grams.negative`, `share.out-of-range`, `fat.too-lean` (F is not above the target)
 * @example fatNeed({ trim: { mean: 10_000, sd: 0 }, trimFat: { mean: 0.02, sd: 0 }, fatFat: 0.9, target: 0.1 }).mean // 1000
 */
export function fatNeed({ trim, trimFat, fatFat, target }: GrindToCome): NeedGuess {
  if (!(trim.mean >= 0 && trim.sd >= 0 && Number.isFinite(trim.mean + trim.sd)))
    throw new CoreProblem('grams.negative', 'trim');
  for (const [field, share] of Object.entries({ trimFat: trimFat.mean, fatFat, target }))
    if (!(share >= 0 && share <= 1)) throw new CoreProblem('share.out-of-range', field);
  if (!(trimFat.sd >= 0 && trimFat.sd <= 1)) throw new CoreProblem('share.out-of-range', 'trimFat.sd');
  if (fatFat <= target) throw new CoreProblem('fat.too-lean', 'fatFat', { fat: fatFat });
  if (trimFat.mean >= target) return { mean: 0, sd: 0 };
  const perGram = (target - trimFat.mean) / (fatFat - target);
  return {
    mean: trim.mean * perGram,
    sd: Math.hypot(perGram * trim.sd, (trim.mean / (fatFat - target)) * trimFat.sd),
  };
}

/**
 * All grinds together, each inner list one animal's: within an animal the errors go the same way, so spreads add;
 * animals are independent of each other, so variances add. The range holds `level` of such sums, normal and cut off
 * at nothing. That all animals of a species are leaner or fatter together is not in it.
 * @throws CoreProblem `probability.out-of-range`
 * @example
 * sumNeeds([[{ mean: 1000, sd: 300 }], [{ mean: 500, sd: 400 }]], 0.8) // mean 1500, sd 500: 859 to 2141
 */
export function sumNeeds(
  animals: readonly (readonly NeedGuess[])[],
  level: number,
): { low: number; mean: number; high: number } {
  if (!(level > 0 && level < 1)) throw new CoreProblem('probability.out-of-range', 'level');
  const mean = animals.flat().reduce((total, need) => total + need.mean, 0);
  const sd = Math.hypot(...animals.map((needs) => needs.reduce((total, need) => total + need.sd, 0)));
  const reach = normalQuantile((1 + level) / 2) * sd;
  return { low: Math.max(0, mean - reach), mean, high: mean + reach };
}

/** What of a need is not on hand, end by end. @example toOrder({ low: 0, mean: 5, high: 9 }, 6) // { low: 0, mean: 0, high: 3 } */
export function toOrder(
  need: { readonly low: number; readonly mean: number; readonly high: number },
  onHandGrams: number,
): { low: number; mean: number; high: number } {
  const lacking = (grams: number): number => Math.max(0, grams - onHandGrams);
  return { low: lacking(need.low), mean: lacking(need.mean), high: lacking(need.high) };
}
