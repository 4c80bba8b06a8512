/** How many animals are to be expected on each of the days to come. */
import { addDays } from '../values/dates.ts';
import {
  countsByDay,
  dailyCounts,
  daysFrom,
  firstDay,
  dispersionOf,
  yearsLater,
  type DayCount,
  weekday,
} from './day-counts.ts';
import { weekdayPattern } from './weekday-pattern.ts';

export interface ArrivalHistory {
  readonly today: string;
  readonly season: number;
  /** This season's intake, today's among it. */
  readonly taken: readonly DayCount[];
  readonly earlier: readonly { readonly season: number; readonly taken: readonly DayCount[] }[];
}

export interface ArrivalForecast {
  /** One for each day from tomorrow on. */
  perDay: number[];
  /** Variance of a day over its mean. */
  dispersion: number;
  /** Standard deviation of the level of the whole, as a part of it. */
  levelSd: number;
  /** Seasons that it rests on; 0 where it is this season's recent pace. */
  earlierSeasons: number;
}

/** A day of the calendar is taken with three on each side, so that every weekday is in it once. */
const NEIGHBOURS = 3;
/** Earlier seasons with fewer animals in all tell nothing of a day. Our own choice, as all below. */
const MIN_EARLIER_ANIMALS = 20;
/** This season is taken to be like the earlier ones until so many animals have come. */
const PRIOR_ANIMALS = 10;
const MAX_SCALE = 4;
const PACE_DAYS = 14;
const DISPERSION_DAYS = 28;
/** A season's course is never quite like the last; a pace alone says less of what is to come. */
const BETWEEN_SEASON_SD = 0.15;
const PACE_DRIFT_SD = 0.3;

/**
 * The mean of the earlier seasons on the same calendar days (smoothed over a week, then parted by weekday), times how many animals came in this
 * season so far for each that had come by then: (came + 10) / (had come + 10), between a quarter and four times. Only the
 * days count that every earlier season has seen, so that a season which was begun late does not mislead. Without earlier
 * seasons worth the name, the pace of the last two weeks goes on.
 * @example
 * // Last year 2 a day; this year 40 in 10 days: (40 + 10) / (20 + 10) = 1.67 times as many
 */
export function forecastArrivals(history: ArrivalHistory, days: number): ArrivalForecast {
  const calendar = calendarOf(history);
  return calendar ? fromEarlierSeasons(history, calendar, days) : fromRecentPace(history, days);
}

/** Earlier seasons on this season's days. */
interface Calendar {
  /** The first day that every one of them has seen. */
  since: string;
  /** Their mean on a day, and over the week about it. */
  mean: (on: string) => number;
  smooth: (on: string) => number;
}

function calendarOf({ season, earlier }: ArrivalHistory): Calendar | null {
  const moved = earlier.map((one) =>
    one.taken.map(({ on, animals }) => ({ on: yearsLater(on, season - one.season), animals })),
  );
  const all = moved.flat();
  if (sum(all.map(({ animals }) => animals)) < MIN_EARLIER_ANIMALS) return null;
  const counts = countsByDay(all);
  const mean = (on: string): number => (counts.get(on) ?? 0) / earlier.length;
  const smooth = (on: string): number =>
    sum(daysFrom(addDays(on, -NEIGHBOURS), addDays(on, NEIGHBOURS)).map(mean)) / (2 * NEIGHBOURS + 1);
  return { since: moved.flatMap((one) => firstDay(one) ?? []).reduce(later), mean, smooth };
}

function fromEarlierSeasons(
  { today, taken, earlier }: ArrivalHistory,
  { since, mean, smooth }: Calendar,
  days: number,
): ArrivalForecast {
  const came = sum(dailyCounts(taken, since, today).map(({ animals }) => animals));
  const hadCome = sum(daysFrom(since, today).map(mean));
  const scale = (came + PRIOR_ANIMALS) / (hadCome + PRIOR_ANIMALS);
  const clampedScale = Math.min(MAX_SCALE, Math.max(1 / MAX_SCALE, scale));
  const pattern = weekdayPattern([...taken, ...earlier.flatMap((one) => one.taken)]);
  const expected = (on: string): number => clampedScale * smooth(on) * (pattern[weekday(on)] as number);
  const observed = dailyCounts(taken, later(since, addDays(today, 1 - DISPERSION_DAYS)), today);
  const dispersion = dispersionOf(
    observed.map(({ on, animals }) => ({ count: animals, expected: expected(on) })),
  );
  return {
    perDay: daysFrom(addDays(today, 1), addDays(today, days)).map(expected),
    dispersion,
    levelSd: Math.hypot(Math.sqrt(dispersion / (came + PRIOR_ANIMALS)), BETWEEN_SEASON_SD),
    earlierSeasons: earlier.length,
  };
}

function fromRecentPace({ today, taken }: ArrivalHistory, days: number): ArrivalForecast {
  const from = later(firstDay(taken) ?? today, addDays(today, 1 - PACE_DAYS));
  const observed = dailyCounts(taken, from, today);
  const came = sum(observed.map(({ animals }) => animals));
  const pattern = weekdayPattern(taken);
  const expected = (on: string): number => (came / observed.length) * (pattern[weekday(on)] as number);
  const dispersion = dispersionOf(
    observed.map(({ on, animals }) => ({ count: animals, expected: expected(on) })),
  );
  return {
    perDay: daysFrom(addDays(today, 1), addDays(today, days)).map(expected),
    dispersion,
    levelSd: Math.hypot(Math.sqrt(dispersion / Math.max(1, came)), PACE_DRIFT_SD),
    earlierSeasons: 0,
  };
}

function later(a: string, b: string): string {
  return a > b ? a : b;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, one) => total + one, 0);
}
