/** Estimates the hanging weight from an earlier weight, for quotes made before the animal hangs. */
import { normalQuantile } from '../stats/distributions.ts';
import { ValidationError } from '../values/validation-error.ts';
import type { Grade, Legs, Sex, Share, Sourced, SpeciesProfile, StageRatios } from '../species/species.ts';

/** `dressed` is field-dressed with its lower legs on, `legs off` the same with them removed at knee and hock. */
export type WeighedAs = 'live' | 'dressed' | 'legs off' | 'hanging' | 'quarters' | 'boned';

export interface HangingEstimate {
  /** Mean hanging weight; for quarters and boned meat the received weight, unchanged. */
  readonly grams: number;
  /** SD of its natural logarithm; pass it to `predict` as `hangingLogSd`, so that the quote's range includes it. */
  readonly logSd: number;
  readonly low: number;
  readonly high: number;
  readonly ratio: number;
  /** Source of the ratio; null without conversion. */
  readonly from: Sourced | null;
}

/**
 * Hanging weight from a weight at another stage, by the species' ratio and its standard deviation; by the ratio of
 * its sex where the literature gives one. Live weight uses the direct ratio where there is one, else live to
 * dressed times dressed to hanging (their relative variances add, taken as independent). The weight is log-normal
 * about its mean. Quarters and boned meat need no conversion: their take-home is a share of the received weight
 * (pass their condition to `predict` as `brought`).
 * @param level of the range low..high, e.g. 0.8
 * @throws ValidationError `yield.weight`, `yield.level`, `yield.stage`
 * @example hangingFrom({ stage: 'legs off', grams: 100_000, profile: elk, level: 0.8 }).grams // 85_000
 */
export function hangingFrom(request: {
  stage: WeighedAs;
  grams: number;
  profile: Pick<SpeciesProfile, 'ratios'>;
  sex?: Sex;
  level: number;
}): HangingEstimate {
  const { stage, grams, profile, level, sex = 'unknown' } = request;
  if (!(grams > 0 && Number.isFinite(grams))) throw new ValidationError('yield.weight', 'grams');
  if (!(level > 0 && level < 1)) throw new ValidationError('yield.level', 'level');
  const { mean: ratio, sd, from } = ratioOf(stage, profile.ratios, sex);
  const logSd = Math.sqrt(Math.log1p((sd / ratio) ** 2));
  const mean = grams * ratio;
  const logHalfWidth = normalQuantile((1 + level) / 2) * logSd;
  const median = mean * Math.exp(-(logSd * logSd) / 2);
  return {
    grams: mean,
    logSd,
    low: sd === 0 ? mean : median * Math.exp(-logHalfWidth),
    high: sd === 0 ? mean : median * Math.exp(logHalfWidth),
    ratio,
    from,
  };
}

/**
 * The hanging share of a field-dressed animal, with its standard deviation: by its lower legs, assumed on when
 * unknown, and by its sex where the literature gives it.
 * @example dressedToHanging(elk.ratios, { legs: 'off' }).mean // 0.85
 */
export function dressedToHanging(
  ratios: StageRatios,
  { legs = 'unknown', sex = 'unknown' }: { legs?: Legs; sex?: Sex },
): { mean: number; sd: number } {
  return ofSex((legs === 'off' ? ratios.legsOff : ratios).dressedToHanging, sex);
}

interface Ratio {
  mean: number;
  sd: number;
  from: Sourced | null;
}

function ratioOf(stage: WeighedAs, ratios: StageRatios, sex: Sex): Ratio {
  switch (stage) {
    case 'live':
      if (ratios.liveToHanging) return ofSex(ratios.liveToHanging, sex);
      return productOfRatios(ofSex(ratios.liveToDressed, sex), ofSex(ratios.dressedToHanging, sex));
    case 'dressed':
      return ofSex(ratios.dressedToHanging, sex);
    case 'legs off':
      return ofSex(ratios.legsOff.dressedToHanging, sex);
    case 'hanging':
    case 'quarters':
    case 'boned':
      return { mean: 1, sd: 0, from: null };
    default:
      throw new ValidationError('yield.stage', 'stage', { stage });
  }
}

function ofSex(share: Share, sex: Sex): Ratio & { from: Sourced } {
  const mean = (sex === 'unknown' ? undefined : share.bySex?.[sex]) ?? share.mean;
  return { mean, sd: share.sd, from: share };
}

function productOfRatios(first: ReturnType<typeof ofSex>, second: ReturnType<typeof ofSex>): Ratio {
  const mean = first.mean * second.mean;
  return {
    mean,
    sd: mean * Math.hypot(first.sd / first.mean, second.sd / second.mean),
    from: {
      grade: weaker(first.from.grade, second.from.grade),
      source: `${first.from.source}; then ${second.from.source}`,
      cites: [...new Set([...first.from.cites, ...second.from.cites])],
    },
  };
}

/** From the most to the least certain. */
const GRADES: readonly Grade[] = ['measured', 'official', 'extension', 'assumption'];

/** A product is as certain as its less certain factor. */
function weaker(a: Grade, b: Grade): Grade {
  return GRADES[Math.max(GRADES.indexOf(a), GRADES.indexOf(b))] ?? 'assumption';
}
