/** How many animals came, or left, on which day, and the pace that a stretch of such days shows. */
import { addDays, daysBetween, isDate } from '../values/dates.ts';

export interface DayCount {
  /** `YYYY-MM-DD` */
  readonly on: string;
  readonly animals: number;
}

/** Animals a day, how far days lie from it, and how sure the pace itself is. */
export interface Pace {
  perDay: number;
  /** Variance of a day over its mean, at least 1. */
  dispersion: number;
  /** Standard deviation of the pace that is to come, as a part of it. */
  levelSd: number;
  /** Days that it was measured on. */
  days: number;
}

/** Taken for the spread until days have shown it, and worth so many days. Our own choice. */
const PRIOR_DISPERSION = 2;
const PRIOR_DAYS = 10;

/** Every day from `from` to `to`, both counted in; none when `to` is earlier. */
export function daysFrom(from: string, to: string): string[] {
  return Array.from({ length: Math.max(0, daysBetween(from, to) + 1) }, (_, k) => addDays(from, k));
}

/** The same days with what is counted on each. */
export function dailyCounts(counts: readonly DayCount[], from: string, to: string): DayCount[] {
  const known = countsByDay(counts);
  return daysFrom(from, to).map((on) => ({ on, animals: known.get(on) ?? 0 }));
}

/** Adds up what is counted on the same day. */
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
 * How many times as much days vary as counts of pure chance would: the mean of (count − expected)² / expected, drawn
 * towards what is usual while there are few days; never less than pure chance.
 * @example spreadOfDays([]) // 2
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

/** The same calendar day so many years later; the first of March where February has no 29th. */
export function yearsLater(on: string, years: number): string {
  const same = `${String(Number(on.slice(0, 4)) + years).padStart(4, '0')}${on.slice(4)}`;
  return isDate(same) ? same : `${same.slice(0, 4)}-03-01`;
}
