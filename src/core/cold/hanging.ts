/** The hanging time of an animal compared with the shop's limits. */
import { ValidationError } from '../values/validation-error.ts';

/** `due` is the last day or the day before it: cut now. */
export type HangState = 'fresh' | 'ready' | 'due' | 'over';

/** Days before the limit at which an animal is due. Our choice. */
const DUE_BEFORE_LIMIT = 1;

/**
 * The state of an animal: `over` beyond the limit, `due` on the last day and the day before, `ready` from
 * `readyDays` on, else `fresh`. The shop sets both numbers; 5 to 7 days at 40 F or below is the most that
 * Michigan's health department advised (Field Dressing, Handling & Cooking Wild Game, about 2005, second-hand
 * copy).
 * @param days whole days hung, 0 or more
 * @throws ValidationError `hanging.days`, `hanging.limits` (unless 0 <= readyDays <= limitDays)
 * @example hangState(6, { readyDays: 4, limitDays: 7 }) // 'due'
 */
export function hangState(days: number, shop: { readyDays: number; limitDays: number }): HangState {
  needDays(days);
  const { readyDays, limitDays } = shop;
  if (!(readyDays >= 0 && readyDays <= limitDays && Number.isFinite(limitDays)))
    throw new ValidationError('hanging.limits', 'readyDays', { readyDays, limitDays });
  if (days > limitDays) return 'over';
  if (days >= limitDays - DUE_BEFORE_LIMIT) return 'due';
  return days >= readyDays ? 'ready' : 'fresh';
}

function needDays(days: number): void {
  if (!Number.isInteger(days) || days < 0) throw new ValidationError('hanging.days', 'days');
}
