/** Forecasts how many animals arrive on each of the coming days. */
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
  /** This season's intake, including today's. */
  readonly taken: readonly DayCount[];
  readonly earlier: readonly { readonly season: number; readonly taken: readonly DayCount[] }[];
}

export interface ArrivalForecast {
  /** Expected arrivals for each day from tomorrow on. */
  perDay: number[];
  /** Variance of a day's count over its mean. */
  dispersion: number;
  /** Relative standard deviation of the overall level. */
  levelSd: number;
  /** Earlier seasons behind the forecast; 0 where it rests on this season's recent pace. */
  earlierSeasons: number;
}

/** A calendar day is averaged with three on each side, so that every weekday counts once. */
const NEIGHBOURS = 3;
/** Earlier seasons with fewer animals in total are not used. Our own choice, like all constants below. */
const MIN_EARLIER_ANIMALS = 20;
/** The prior that this season equals the earlier ones counts as this many animals. */
const PRIOR_ANIMALS = 10;
const MAX_SCALE = 4;
const PACE_DAYS = 14;
const DISPERSION_DAYS = 28;
/** Relative standard deviations: between seasons, and of a pace that is carried forward. */
const BETWEEN_SEASON_SD = 0.15;
const PACE_DRIFT_SD = 0.3;

/**
 * Mean of the earlier seasons on the same calendar days, smoothed over a week and redistributed by weekday, times a scale:
 * this season's animals so far over the earlier mean by the same day, (came + 10) / (had come + 10), limited to ¼–4. Only
 * days that every earlier season covers are counted, so a season that was recorded from its middle does not bias the
 * scale. Without usable earlier seasons the pace of the last two weeks is carried forward.
 * @example
 * // Last year 2 a day; this year 40 in 10 days: (40 + 10) / (20 + 10) = 1.67 times as many
 */
export function forecastArrivals(history: ArrivalHistory, days: number): ArrivalForecast {
  const calendar = calendarOf(history);
  return calendar ? fromEarlierSeasons(history, calendar, days) : fromRecentPace(history, days);
}

/** Earlier seasons mapped to this season's dates. */
interface Calendar {
  /** The first day that every earlier season covers. */
  since: string;
  /** Mean count of a day, and of the week centred on it. */
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
