import { requireFraction, ValidationError } from '../values/validation-error.ts';
import { positive } from './input.ts';

export interface TwoPartBlend {
  /** Weight of the lean trim, grams, above 0. */
  readonly leanGrams: number;
  /** Fat fractions, 0 to 1. */
  readonly leanFat: number;
  readonly fatFat: number;
  readonly targetFat: number;
}

export type FatToAdd =
  | { kind: 'add'; grams: number; batchGrams: number }
  | { kind: 'lean enough'; fat: number }
  | { kind: 'out of reach'; reason: 'fat-too-lean' | 'needs-pure-fat'; highestFat: number };

/**
 * How much of one fat source brings a weight of lean trim up to a target fat content: the two-part balance (Pearson
 * square). Fat in = fat out, so with lean L, fat source F and target T
 *
 *     grams = leanGrams × (T − L) / (F − T)
 *
 * `lean enough` when the trim already has the target or more: nothing to add. `out of reach` when the source is
 * leaner than the target, or exactly as fat (only the pure source would do).
 * @throws ValidationError `number.not-finite`, `share.out-of-range`, `grams.not-positive`
 * @example fatToAdd({ leanGrams: 16, leanFat: 0, fatFat: 1, targetFat: 0.3 }).grams // 6.857, as 16 / 0.7 − 16
 */
export function fatToAdd(blend: TwoPartBlend): FatToAdd {
  const { leanGrams, leanFat, fatFat, targetFat } = blend;
  positive(leanGrams, 'leanGrams');
  requireFraction(leanFat, 'leanFat');
  requireFraction(fatFat, 'fatFat');
  requireFraction(targetFat, 'targetFat');
  if (targetFat <= leanFat) return { kind: 'lean enough', fat: leanFat };
  if (targetFat > fatFat)
    return { kind: 'out of reach', reason: 'fat-too-lean', highestFat: Math.max(leanFat, fatFat) };
  if (targetFat === fatFat) return { kind: 'out of reach', reason: 'needs-pure-fat', highestFat: fatFat };
  const grams = (leanGrams * (targetFat - leanFat)) / (fatFat - targetFat);
  if (!Number.isFinite(grams)) throw new ValidationError('number.not-finite', 'leanGrams');
  return { kind: 'add', grams, batchGrams: leanGrams + grams };
}
