/** How much trim a wanted finished weight takes, and what a given weight of trim will come to. */
import {
  requireFinite,
  requireFraction,
  requireNonNegative,
  ValidationError,
} from '../values/validation-error.ts';
import type { YieldForecast } from './loss.ts';

export interface Made {
  /** Grams added per gram of the meat block: water, seasoning, binder. */
  readonly addedShare: number;
  /** Share of the meat block that is the owner's trim; the rest is bought fat and trim. */
  readonly trimShare: number;
  readonly yields: Pick<YieldForecast, 'low' | 'middle' | 'high'>;
}

export interface GramsRange {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/**
 * finished ÷ yield ÷ (1 + added) × the trim's share. The range is that of the yield, the other way round: a poor yield takes more.
 * @throws ValidationError `grams.not-positive`, `share.out-of-range`, `yield.order`
 * @example
 * trimNeeded(10, { addedShare: 0, trimShare: 1, yields: { low: 0.58, middle: 0.625, high: 0.67 } }).middle // 16
 */
export function trimNeeded(finishedGrams: number, made: Made): GramsRange {
  requireMade(made);
  const { yields, addedShare, trimShare } = made;
  const at = (share: number): number => (positive(finishedGrams) / share / (1 + addedShare)) * trimShare;
  return { low: at(yields.high), middle: at(yields.middle), high: at(yields.low) };
}

/**
 * What so much of the owner's trim will come to: `trimNeeded` the other way round.
 * @throws ValidationError as `trimNeeded`; `trim.none` (a product without any of the owner's trim)
 */
export function finishedFrom(trimGrams: number, made: Made): GramsRange {
  requireMade(made);
  const { yields, addedShare, trimShare } = made;
  if (trimShare === 0) throw new ValidationError('trim.none', 'trimShare');
  const at = (share: number): number => (positive(trimGrams) / trimShare) * (1 + addedShare) * share;
  return { low: at(yields.low), middle: at(yields.middle), high: at(yields.high) };
}

function requireMade({ addedShare, trimShare, yields: { low, middle, high } }: Made): void {
  requireNonNegative(addedShare, 'addedShare');
  requireFraction(trimShare, 'trimShare');
  if (!(low > 0 && low <= middle && middle <= high && high <= 1))
    throw new ValidationError('yield.order', 'yields');
}

function positive(grams: number): number {
  if (requireFinite(grams, 'grams') <= 0) throw new ValidationError('grams.not-positive', 'grams', { grams });
  return grams;
}
