/** Guesses the hanging weight from an earlier weight, for quotes made before the animal hangs. */
import { normalQuantile } from './distributions.ts';
import { CoreProblem } from './problem.ts';
import type { SpeciesProfile } from './species.ts';

export type WeighedAs = 'live' | 'dressed' | 'hanging' | 'quarters' | 'boned';

export interface HangingGuess {
  /** Mean hanging weight; for quarters and boned meat the weight received, as it stands. */
  readonly grams: number;
  /** Spread of its natural logarithm: hand it to `predict` as `hangingLogSd`, so that the quote's range holds it. */
  readonly logSd: number;
  readonly low: number;
  readonly high: number;
  readonly ratio: number;
  /** Where the ratio was published; empty when nothing was converted. */
  readonly source: string;
}

/**
 * Hanging weight from a weight at another stage, by the species' published ratio and its spread. Live weight uses the
 * directly published ratio where there is one, else live to dressed times dressed to hanging (their relative
 * variances add, taken as independent). The weight is log-normal about its mean. Quarters and boned meat need no
 * conversion: their take-home is a share of the weight received (tell `predict` how they were brought).
 * @param level of the range low..high, e.g. 0.8
 * @throws CoreProblem `yield.weight`, `yield.level`, `yield.stage`
 * @example hangingFrom({ stage: 'dressed', grams: 100_000, profile: elk, level: 0.8 }).grams // 85_000
 */
export function hangingFrom(asked: {
  stage: WeighedAs;
  grams: number;
  profile: Pick<SpeciesProfile, 'ratios'>;
  level: number;
}): HangingGuess {
  const { stage, grams, profile, level } = asked;
  if (!(grams > 0 && Number.isFinite(grams))) throw new CoreProblem('yield.weight', 'grams');
  if (!(level > 0 && level < 1)) throw new CoreProblem('yield.level', 'level');
  const { mean: ratio, sd, source } = ratioOf(stage, profile.ratios);
  const logSd = Math.sqrt(Math.log1p((sd / ratio) ** 2));
  const mean = grams * ratio;
  const reach = normalQuantile((1 + level) / 2) * logSd;
  const middle = mean * Math.exp(-(logSd * logSd) / 2);
  return {
    grams: mean,
    logSd,
    low: sd === 0 ? mean : middle * Math.exp(-reach),
    high: sd === 0 ? mean : middle * Math.exp(reach),
    ratio,
    source,
  };
}

function ratioOf(
  stage: WeighedAs,
  ratios: SpeciesProfile['ratios'],
): { mean: number; sd: number; source: string } {
  const { liveToDressed, dressedToHanging, liveToHanging } = ratios;
  switch (stage) {
    case 'live': {
      if (liveToHanging) return liveToHanging;
      const mean = liveToDressed.mean * dressedToHanging.mean;
      const spread = Math.hypot(
        liveToDressed.sd / liveToDressed.mean,
        dressedToHanging.sd / dressedToHanging.mean,
      );
      return { mean, sd: mean * spread, source: `${liveToDressed.source}; ${dressedToHanging.source}` };
    }
    case 'dressed':
      return dressedToHanging;
    case 'hanging':
    case 'quarters':
    case 'boned':
      return { mean: 1, sd: 0, source: '' };
    default:
      throw new CoreProblem('yield.stage', 'stage', { stage });
  }
}
