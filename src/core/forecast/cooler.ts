/** Forecasts the animals hanging on the coming days, from those hanging now, arrivals and the cutting pace. */
import { forecastArrivals, type ArrivalHistory } from './arrivals.ts';
import { convolve, pmfQuantile, countPmf, pmfMean, mixture, truncatedDifference, type Pmf } from './pmf.ts';
import { cuttingPace } from './pace.ts';
import { addDays } from '../values/dates.ts';
import { firstDay, type DayCount } from './day-counts.ts';
import { ValidationError } from '../values/validation-error.ts';

export interface HangingDay {
  on: string;
  low: number;
  mean: number;
  high: number;
}

export interface CoolerForecast {
  days: HangingDay[];
  /** Expected intake per day over these days. */
  takenPerDay: number;
  /** Animals cut per open day. */
  cutPerDay: number;
  /** Open days behind the measured cutting pace. */
  paceDays: number;
  earlierSeasons: number;
}

/** A flow of animals: expected counts by day, their dispersion, and the uncertainty of the level. */
export interface Flow {
  readonly perDay: readonly number[];
  /** Variance of a day's count over its mean, 1 or more. */
  readonly dispersion: number;
  /** Relative standard deviation of the level, common to all days. */
  readonly levelSd: number;
}

/**
 * Forecasts the animals hanging at the end of each day after today: arrivals by `forecastArrivals`, departures by
 * `cuttingPace` on open days, combined by `hangingRanges`. It assumes that the shop goes on cutting at its pace and that
 * arrivals follow the earlier seasons. It does not know weather, season openings that move, or planned days off.
 * @param level coverage of the range, 0.8 for 8 in 10
 * @throws ValidationError `amount.negative`, `share.out-of-range`, `date.unreadable`
 */
export function coolerForecast(
  known: ArrivalHistory & { readonly hanging: number; readonly left: readonly DayCount[] },
  days: number,
  level: number,
): CoolerForecast {
  const { today, hanging, taken, left } = known;
  const arrivals = forecastArrivals(known, days);
  const first = firstDay(taken) ?? today;
  const pace = cuttingPace(left, today, first);
  const dates = arrivals.perDay.map((_, k) => addDays(today, k + 1));
  const ranges = hangingRanges(
    hanging,
    arrivals,
    { ...pace, perDay: dates.map((on) => (pace.open(on) ? pace.perDay : 0)) },
    level,
  );
  return {
    days: dates.map((on, k) => ({ on, ...(ranges[k] as Omit<HangingDay, 'on'>) })),
    takenPerDay: arrivals.perDay.reduce((total, one) => total + one, 0) / Math.max(1, days),
    cutPerDay: pace.perDay,
    paceDays: pace.days,
    earlierSeasons: arrivals.earlierSeasons,
  };
}

/**
 * Mean and range of the animals hanging at the end of each day. Each day hanging = max(0, hanging − departures) +
 * arrivals, propagated as a distribution (the recursion of D. V. Lindley, Proc. Cambridge Philos. Soc. 48 (1952) 277–289):
 * an animal is not cut on the day it arrives, and an empty rail cannot be cut. Days are independent, each negative binomial
 * with variance `dispersion` times its mean. The level of each flow is one unknown factor for all days, log-normal with
 * `levelSd`, integrated by three-point Gauss–Hermite quadrature scaled to mean 1. The mean therefore changes by exactly
 * expected arrivals less expected departures while the rail does not run empty.
 * @throws ValidationError `amount.negative`, `share.out-of-range`, `spread.below-one`
 */
export function hangingRanges(
  hanging: number,
  arrivals: Flow,
  departures: Flow,
  level: number,
): { low: number; mean: number; high: number }[] {
  if (!(Number.isSafeInteger(hanging) && hanging >= 0))
    throw new ValidationError('amount.negative', 'hanging');
  if (!(level > 0 && level < 1)) throw new ValidationError('share.out-of-range', 'level');
  const initialPmf: Pmf = [...new Array<number>(hanging).fill(0), 1];
  const departurePaths = pmfsByLevel(
    departures,
    arrivals.perDay.map((_, k) => departures.perDay[k] ?? 0),
  );
  const paths = pmfsByLevel(arrivals, arrivals.perDay).flatMap((arriving) =>
    departurePaths.map((departing) => {
      let pmf = initialPmf;
      const days = arriving.days.map(
        (arrivalPmf, k) => (pmf = convolve(truncatedDifference(pmf, departing.days[k] as Pmf), arrivalPmf)),
      );
      return { weight: arriving.weight * departing.weight, days };
    }),
  );
  return arrivals.perDay.map((_, k) => {
    const pmf = mixture(paths.map(({ weight, days }) => ({ weight, pmf: days[k] as Pmf })));
    const mean = pmfMean(pmf);
    const tail = (1 - level) / 2;
    // The mean of a skewed count may lie outside its quantiles.
    return {
      low: Math.min(mean, pmfQuantile(pmf, tail)),
      mean,
      high: Math.max(mean, pmfQuantile(pmf, 1 - tail)),
    };
  });
}

const HERMITE_NODES = [-Math.sqrt(3), 0, Math.sqrt(3)];
const HERMITE_WEIGHTS = [1 / 6, 2 / 3, 1 / 6];

/** The distribution of each day's count at each quadrature node of the flow's level. */
function pmfsByLevel(
  { levelSd, dispersion }: Flow,
  perDay: readonly number[],
): { weight: number; days: Pmf[] }[] {
  return levelNodes(levelSd).map(({ factor, weight }) => {
    // Days with one mean share their distribution.
    const byMean = new Map<number, Pmf>();
    const pmfOf = (mean: number): Pmf => {
      const pmf = byMean.get(mean) ?? countPmf(mean * factor, dispersion);
      byMean.set(mean, pmf);
      return pmf;
    };
    return { weight, days: perDay.map(pmfOf) };
  });
}

function levelNodes(levelSd: number): { factor: number; weight: number }[] {
  if (!(levelSd >= 0 && Number.isFinite(levelSd))) throw new ValidationError('amount.negative', 'levelSd');
  const factors = HERMITE_NODES.map((z) => Math.exp(z * levelSd));
  const mean = factors.reduce((total, factor, i) => total + factor * (HERMITE_WEIGHTS[i] as number), 0);
  return factors.map((factor, i) => ({ factor: factor / mean, weight: HERMITE_WEIGHTS[i] as number }));
}
