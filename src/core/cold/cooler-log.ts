/** Compares a cooler's log with the shop's limit. It only warns: the shop and its inspector decide what to do. */
import { ValidationError } from '../values/validation-error.ts';

/** 40 F: the usual cold-holding limit (North Dakota State University Extension FN1733, 2019, second-hand copy). */
export const COOLER_LIMIT_C = 4.4;

export interface CoolerReading {
  /** Moment as ISO text, e.g. `2026-11-20T06:30:00Z`. */
  readonly at: string;
  readonly tempC: number;
}

export interface CoolerLogSummary {
  /** Is the latest reading above the limit? False when there is none. */
  above: boolean;
  minutesAbove: number;
  longestMinutesAbove: number;
  /** The longest time between two readings; nothing is known of the temperature in between. */
  longestGapMinutes: number;
}

/**
 * Minutes above the limit by linear interpolation between readings; exactly at the limit is not above. Readings may come in
 * any order; of two at the same moment the later in the list counts.
 * @throws ValidationError `cooler.moment`, `cooler.temperature`, `cooler.limit`
 * @example summariseCoolerLog([{ at: '2026-11-20T06:00Z', tempC: 3.4 }, { at: '2026-11-20T08:00Z', tempC: 5.4 }]).minutesAbove // 60
 */
export function summariseCoolerLog(
  readings: readonly CoolerReading[],
  limitC: number = COOLER_LIMIT_C,
): CoolerLogSummary {
  if (!Number.isFinite(limitC)) throw new ValidationError('cooler.limit', 'limitC');
  const log = chronological(readings);
  let total = 0;
  let run = 0;
  let longest = 0;
  let gap = 0;
  for (let i = 1; i < log.length; i++) {
    const [from, to] = [log[i - 1] as Point, log[i] as Point];
    const span = to.minute - from.minute;
    const warm = span * shareAbove(from.tempC - limitC, to.tempC - limitC);
    total += warm;
    // A run ends where the line dips to the limit: inside this stretch, or at its start.
    run = from.tempC > limitC ? run + warm : warm;
    longest = Math.max(longest, run);
    if (to.tempC <= limitC) run = 0;
    gap = Math.max(gap, span);
  }
  const last = log.at(-1);
  return {
    above: last !== undefined && last.tempC > limitC,
    minutesAbove: total,
    longestMinutesAbove: longest,
    longestGapMinutes: gap,
  };
}

/**
 * The intervals above the limit, ms UTC, by the same interpolation as `summariseCoolerLog`.
 * @throws ValidationError as `summariseCoolerLog`
 * @example warmIntervals([{ at: '2026-11-20T06:00Z', tempC: 3.4 }, { at: '2026-11-20T08:00Z', tempC: 5.4 }]) // one, from 07:00 to 08:00
 */
export function warmIntervals(
  readings: readonly CoolerReading[],
  limitC: number = COOLER_LIMIT_C,
): { from: number; to: number }[] {
  if (!Number.isFinite(limitC)) throw new ValidationError('cooler.limit', 'limitC');
  const log = chronological(readings);
  return log.slice(1).flatMap((to, i) => {
    const from = log[i] as Point;
    const warm = (to.minute - from.minute) * shareAbove(from.tempC - limitC, to.tempC - limitC);
    if (warm === 0) return [];
    // A cooling segment is warm at its start, a warming one at its end.
    const begin = from.tempC > limitC ? from.minute : to.minute - warm;
    return [{ from: begin * 60_000, to: (begin + warm) * 60_000 }];
  });
}

interface Point {
  minute: number;
  tempC: number;
}

function chronological(readings: readonly CoolerReading[]): Point[] {
  const byMinute = new Map<number, Point>();
  for (const [i, { at, tempC }] of readings.entries()) {
    const minute = Date.parse(at) / 60_000;
    if (!Number.isFinite(minute)) throw new ValidationError('cooler.moment', `readings[${i}].at`, { at });
    if (!Number.isFinite(tempC)) throw new ValidationError('cooler.temperature', `readings[${i}].tempC`);
    byMinute.set(minute, { minute, tempC });
  }
  return [...byMinute.values()].sort((a, b) => a.minute - b.minute);
}

/** The part of a straight line from `a` to `b` that lies above zero. */
function shareAbove(a: number, b: number): number {
  if (a <= 0 && b <= 0) return 0;
  if (a >= 0 && b >= 0) return 1;
  return Math.max(a, b) / Math.abs(b - a);
}
