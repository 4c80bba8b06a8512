/** What hanging does: how far an animal is against the shop's limit, what it loses by drying, how warm it got. */
import { CoreProblem } from './problem.ts';

/** `late` is the last day or the eve of it: cut now. */
export type HangState = 'fresh' | 'ready' | 'late' | 'over';

/** Days before the limit at which an animal counts as late. Our choice. */
const LATE_BEFORE_LIMIT = 1;

/**
 * Where an animal stands: `over` once it hung longer than the limit, `late` on the last day and the eve of it,
 * `ready` once it hung the shop's wish, else `fresh`. The shop sets both numbers; 5 to 7 days at 40 F or below is
 * the most that Michigan's health department advised (Field Dressing, Handling & Cooking Wild Game, about 2005,
 * second-hand copy).
 * @param days whole days hung, 0 or more
 * @throws CoreProblem `hanging.days`, `hanging.limits` (unless 0 <= readyDays <= limitDays)
 * @example hangState(6, { readyDays: 4, limitDays: 7 }) // 'late'
 */
export function hangState(days: number, shop: { readyDays: number; limitDays: number }): HangState {
  needDays(days);
  const { readyDays, limitDays } = shop;
  if (!(readyDays >= 0 && readyDays <= limitDays && Number.isFinite(limitDays)))
    throw new CoreProblem('hanging.limits', 'readyDays', { readyDays, limitDays });
  if (days > limitDays) return 'over';
  if (days >= limitDays - LATE_BEFORE_LIMIT) return 'late';
  return days >= readyDays ? 'ready' : 'fresh';
}

export interface ShrinkPrior {
  /** Share lost in the first day, mostly by chilling. */
  readonly firstDay: { readonly mean: number; readonly sd: number; readonly source: string };
  /** Share of what is left, lost on each later day. */
  readonly laterDay: { readonly mean: number; readonly sd: number; readonly source: string };
}

/** The spreads are our choice: none was published for game. */
export const HANGING_SHRINK: ShrinkPrior = {
  firstDay: {
    mean: 0.0165,
    sd: 0.005,
    source:
      'fallow deer 1.4-2.0 % warm to cold, computed from Fitzhenry et al., Afr. J. Wildl. Res. 49:100-110, 2019; ' +
      'beef 1-2 % overnight, Kansas State AES Report of Progress 557, 1972',
  },
  laterDay: {
    mean: 0.0026,
    sd: 0.0008,
    source:
      '4-6 % over 14 days on the rail for beef (proxy), http://beef-exchange.com/page-14, less the first day',
  },
};

/**
 * The share of its weight that a skinned carcass is expected to lose in `days` days on the rail: a first day, then
 * the same small share of what is left each day. `sd` takes both rates as an animal's own, independent of each other.
 * @throws CoreProblem `hanging.days`
 * @example shrinkAfter(14).mean // 0.0492, within the 4 to 6 % of its source
 */
export function shrinkAfter(days: number, prior: ShrinkPrior = HANGING_SHRINK): { mean: number; sd: number } {
  needDays(days);
  if (days === 0) return { mean: 0, sd: 0 };
  const { firstDay, laterDay } = prior;
  const later = days - 1;
  const kept = (1 - laterDay.mean) ** later;
  const byFirst = kept * firstDay.sd;
  const byLater = ((1 - firstDay.mean) * later * kept * laterDay.sd) / (1 - laterDay.mean);
  return { mean: 1 - (1 - firstDay.mean) * kept, sd: Math.hypot(byFirst, byLater) };
}

function needDays(days: number): void {
  if (!Number.isInteger(days) || days < 0) throw new CoreProblem('hanging.days', 'days');
}
