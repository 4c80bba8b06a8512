/** Monte Carlo ranges of all parts: in every draw the parts add up to the hanging weight. */
import { quantile } from '../stats/quantile.ts';
import { seededRandom } from '../stats/random.ts';
import type { StudentT } from '../stats/student-t.ts';
import type { DamageDependence } from './predict.ts';
import { scoreOf } from './latent.ts';
import { divide, inverseLogit, SPLITS, type Base, type Part, type Split } from './tree.ts';

export interface Range {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
}

export interface SimulationInput {
  readonly hangingGrams: number;
  /** Spread of the natural logarithm of the hanging weight; 0 when it was weighed. */
  readonly hangingLogSd: number;
  /** The ordered share of the meat in whole cuts; null to predict it. */
  readonly cutsShare: number | null;
  readonly base: Base;
  readonly level: number;
  readonly seed: number;
  readonly draws: number;
}

const [TAKE_HOME, FAT_SAVED, WHOLE_CUTS, BONE, SINEW, DAMAGE] = [
  'takeHome', 'fatSaved', 'wholeCuts', 'bone', 'sinew', 'damage',
].map((split) => SPLITS.indexOf(split as Split)) as [number, number, number, number, number, number]; // prettier-ignore

/** Simulated animals in the order of the draws: in each draw the parts add up to the hanging weight. */
export interface DrawnParts<P extends Part> {
  readonly hanging: Float64Array;
  readonly parts: Readonly<Record<P, Float64Array>>;
}

/**
 * Simulates `draws` animals. Each split has its own Student's t; splits correlate through the damage alone. An estimated
 * hanging weight is log-normal with mean `hangingGrams`. The same seed gives the same draws for every weight.
 */
export function drawParts<P extends Part>(
  splits: Readonly<Record<Split, StudentT>>,
  dependence: DamageDependence,
  input: Omit<SimulationInput, 'level'>,
  requested: readonly P[],
): DrawnParts<P> {
  const random = seededRandom(input.seed);
  const { hangingGrams, hangingLogSd, draws, base } = input;
  const hanging = new Float64Array(draws);
  const values = Object.fromEntries(requested.map((part) => [part, new Float64Array(draws)])) as Record<
    P,
    Float64Array
  >;
  const share = { takeHome: 0, fatSaved: 0, wholeCuts: 0, bone: 0, sinew: 0, damage: 0 };
  const score = scoreOf(dependence.probabilityOfNone);
  const [location, scale, degrees] = (['location', 'scale', 'degrees'] as const).map((figure) =>
    Float64Array.from(SPLITS, (split) => splits[split][figure]),
  ) as [Float64Array, Float64Array, Float64Array];
  const loading = Float64Array.from(SPLITS, (split) => dependence.correlations[split] ?? 0);
  const residualSd = loading.map((one) => Math.sqrt(1 - one * one));
  const drawn = new Float64Array(SPLITS.length);
  const columns = requested.map((part) => ({ part, column: values[part] }));
  for (let i = 0; i < draws; i++) {
    const guess = hangingLogSd * random.normal() - (hangingLogSd * hangingLogSd) / 2;
    const whole = hangingGrams * Math.exp(guess);
    const damage = random.normal();
    const clean = random.uniform() < dependence.probabilityOfNone;
    const { mean, sd } = clean ? score.none : score.some;
    const own = mean + sd * damage;
    // By number: looking each figure up by its name took half of the time.
    for (let k = 0; k < drawn.length; k++) {
      const normal = k === DAMAGE ? damage : loading[k]! * own + residualSd[k]! * random.normal();
      drawn[k] = inverseLogit(
        location[k]! + scale[k]! * (normal / Math.sqrt((2 * random.gamma(degrees[k]! / 2)) / degrees[k]!)),
      );
    }
    share.takeHome = drawn[TAKE_HOME]!;
    share.fatSaved = drawn[FAT_SAVED]!;
    share.wholeCuts = input.cutsShare ?? drawn[WHOLE_CUTS]!;
    share.bone = drawn[BONE]!;
    share.sinew = drawn[SINEW]!;
    share.damage = clean ? 0 : drawn[DAMAGE]!;
    const parts = divide(whole, share, base);
    hanging[i] = whole;
    for (const { part, column } of columns) column[i] = parts[part];
  }
  return { hanging, parts: values };
}

/**
 * Simulates animals (`drawParts`) and returns the mean and the central `level` of the draws for each part; `low` is 0 where
 * more than the lower tail have none. The same seed gives the same draws for every level, so ranges scale and nest.
 * @param requested the parts whose ranges are wanted: sorting the draws is half the work
 */
export function simulateParts<P extends Part>(
  splits: Readonly<Record<Split, StudentT>>,
  dependence: DamageDependence,
  input: SimulationInput,
  requested: readonly P[],
): { hanging: Range; parts: Record<P, Range> } {
  const drawn = drawParts(splits, dependence, input, requested);
  const parts = Object.fromEntries(requested.map((part) => [part, rangeOf(drawn.parts[part], input.level)]));
  return { hanging: rangeOf(drawn.hanging, input.level), parts: parts as Record<P, Range> };
}

/** Mean and central `level` of draws, which it sorts. */
function rangeOf(values: Float64Array, level: number): Range {
  const sorted = values.sort();
  let total = 0;
  for (let i = 0; i < sorted.length; i++) total += sorted[i]!;
  const mean = total / sorted.length;
  return { mean, low: quantile(sorted, (1 - level) / 2, 6), high: quantile(sorted, (1 + level) / 2, 6) };
}
