/** How many animals will hang on the days to come, from what hangs now, what is to come and how fast it is cut. */
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
  /** Expected intake a day over these days. */
  takenPerDay: number;
  /** Off the hook on an open day. */
  cutPerDay: number;
  /** Open days that the pace of cutting was measured on. */
  paceDays: number;
  earlierSeasons: number;
}

/** A flow's expected counts, day by day; how its days vary; how sure its level is. */
export interface Flow {
  readonly perDay: readonly number[];
  /** Variance of a day over its mean, 1 or more. */
  readonly dispersion: number;
  /** Standard deviation of the level, as a part of it; the same for all days. */
  readonly levelSd: number;
}

/**
 * Tells the hanging animals of the days after today: what comes by `arrivalsToCome`, what goes by `cuttingPace` on open
 * days, joined by `hangingChances`. It takes a shop to go on cutting as it did, whatever hangs, and animals to come as in
 * the earlier seasons; it knows nothing of weather, of opening days that move, or of a day off that is planned.
 * @param level part of such days that the range should hold, 0.8 for 8 in 10
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
 * Mean and range of what hangs at the end of each day. Day by day, hanging = max(0, hanging − cut) + come, with the whole
 * distribution carried along (the recursion of D. V. Lindley, Proc. Cambridge Philos. Soc. 48 (1952) 277–289): what
 * comes today is not cut today, and cutters of an empty rail wait. Days vary independently, each with variance `spread`
 * times its mean (negative binomial). The level of each flow is one unknown factor for all days, log-normal with `doubt`,
 * taken at the three nodes of Gauss and Hermite and scaled to mean 1. So the mean falls by exactly what is expected to
 * be cut and grows by what is expected to come, as long as the rail does not run empty.
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
    // The mean of a lopsided count may lie beyond the range that holds enough of it.
    return {
      low: Math.min(mean, pmfQuantile(pmf, tail)),
      mean,
      high: Math.max(mean, pmfQuantile(pmf, 1 - tail)),
    };
  });
}

const HERMITE_NODES = [-Math.sqrt(3), 0, Math.sqrt(3)];
const HERMITE_WEIGHTS = [1 / 6, 2 / 3, 1 / 6];

/** The chances of each day's count, should the level of a flow be this or that. */
function pmfsByLevel(
  { levelSd, dispersion }: Flow,
  perDay: readonly number[],
): { weight: number; days: Pmf[] }[] {
  return levelNodes(levelSd).map(({ factor, weight }) => ({
    weight,
    days: perDay.map((mean) => countPmf(mean * factor, dispersion)),
  }));
}

function levelNodes(levelSd: number): { factor: number; weight: number }[] {
  if (!(levelSd >= 0 && Number.isFinite(levelSd))) throw new ValidationError('amount.negative', 'levelSd');
  const factors = HERMITE_NODES.map((z) => Math.exp(z * levelSd));
  const mean = factors.reduce((total, factor, i) => total + factor * (HERMITE_WEIGHTS[i] as number), 0);
  return factors.map((factor, i) => ({ factor: factor / mean, weight: HERMITE_WEIGHTS[i] as number }));
}
