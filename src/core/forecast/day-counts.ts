/** Animals that arrived, or left, by day, and the pace over a run of days. */
import { addDays, daysBetween, isDate } from '../values/dates.ts';

export interface DayCount {
  /** `YYYY-MM-DD` */
  readonly on: string;
  readonly animals: number;
}

/** Animals per day, how much days vary, and how uncertain the pace itself is. */
export interface Pace {
  perDay: number;
  /** Index of dispersion: variance of a day's count over its mean, at least 1. */
  dispersion: number;
  /** Relative standard deviation of the coming pace. */
  levelSd: number;
  /** Days that it was measured on. */
  days: number;
}

/** Prior dispersion, and the days that it counts as. Our own choice. */
const PRIOR_DISPERSION = 2;
const PRIOR_DAYS = 10;

/** Every day from `from` to `to` inclusive; none when `to` is earlier. */
export function daysFrom(from: string, to: string): string[] {
  return Array.from({ length: Math.max(0, daysBetween(from, to) + 1) }, (_, k) => addDays(from, k));
}

/** The same days with the count of each, 0 where there is none. */
export function dailyCounts(counts: readonly DayCount[], from: string, to: string): DayCount[] {
  const known = countsByDay(counts);
  return daysFrom(from, to).map((on) => ({ on, animals: known.get(on) ?? 0 }));
}

/** Sums counts of the same day. */
export function countsByDay(counts: readonly DayCount[]): Map<string, number> {
  const sums = new Map<string, number>();
  for (const { on, animals } of counts) sums.set(on, (sums.get(on) ?? 0) + animals);
  return sums;
}

/** The earliest of some days, in any order. */
export function firstDay(counts: readonly DayCount[]): string | undefined {
  return counts.map(({ on }) => on).toSorted()[0];
}

/**
 * The index of dispersion: the mean of (count − expected)² / expected, shrunk towards the prior while there are few days,
 * and at least 1 (Poisson).
 * @example dispersionOf([]) // 2
 */
export function dispersionOf(days: readonly { count: number; expected: number }[]): number {
  const known = days.filter(({ expected }) => expected > 0);
  const squares = known.reduce(
    (total, { count, expected }) => total + (count - expected) ** 2 / Math.max(expected, 0.25),
    0,
  );
  return Math.max(1, (PRIOR_DISPERSION * PRIOR_DAYS + squares) / (PRIOR_DAYS + known.length));
}

/** 0 for Sunday to 6. */
export function weekday(on: string): number {
  return new Date(`${on}T00:00:00Z`).getUTCDay();
}

/** The same calendar day `years` later; March 1 where February has no 29th. */
export function yearsLater(on: string, years: number): string {
  const same = `${String(Number(on.slice(0, 4)) + years).padStart(4, '0')}${on.slice(4)}`;
  return isDate(same) ? same : `${same.slice(0, 4)}-03-01`;
}
