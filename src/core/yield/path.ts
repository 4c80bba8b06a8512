/** How the belief about the take-home moved while a season's animals were finished, one after the other. */
import { tQuantile } from '../stats/distributions.ts';
import { ValidationError } from '../values/validation-error.ts';
import type { SpeciesProfile } from '../species/species.ts';
import type { StudentT } from '../stats/student-t.ts';
import { predictSplit } from './predict.ts';
import { modelFrom, type YieldModel } from './model.ts';
import type { Group, YieldObservation } from './observation.ts';
import type { Range } from './simulate.ts';
import { accumulate, type Cell, type YieldSums } from './sums.ts';
import { inverseLogit } from './tree.ts';

/**
 * The take-home, as a share, that `level` of other animals of this kind are expected to give. Exact where `predict`
 * draws: the share rises with its logit, so its quantiles are those of the Student's t behind it, and its mean is that
 * density summed up finely (the trapezoidal rule in u with t = sinh u, which ends both tails).
 * @throws ValidationError `yield.level`, `yield.species-unknown`, `yield.brought`, `yield.group`
 * @example takeHomeRange(learn([elk], []), { species: 'elk', brought: 'skinned' }, 0.8).mean // about 0.59
 */
export function takeHomeRange(model: YieldModel, group: Group, level: number): Range {
  if (!(level > 0 && level < 1)) throw new ValidationError('yield.level', 'level');
  const predictive = predictSplit(model, group, 'takeHome');
  const { location, scale, degrees } = predictive;
  const halfWidth = scale * tQuantile((1 + level) / 2, degrees);
  return {
    mean: meanShare(predictive),
    low: inverseLogit(location - halfWidth),
    high: inverseLogit(location + halfWidth),
  };
}

/**
 * The ranges of `groups` after the first `stop` of these animals, for each of `stops` (ascending; 0 for before the
 * first): sums are added to, so that the animals before them cost nothing however many they were.
 * @param before sums of all animals of earlier seasons
 * @throws ValidationError as `takeHomeRange`, `observe` and `modelFrom`
 */
export function predictionPath(
  profiles: readonly SpeciesProfile[],
  before: YieldSums,
  observations: readonly YieldObservation[],
  request: { groups: readonly Group[]; stops: readonly number[]; level: number },
): Range[][] {
  // The take-home alone is asked for: what else the animals tell need not be added up again at each stop.
  const sums = takeHomeSums(before);
  let done = 0;
  return request.stops.map((stop) => {
    for (const { hangingGrams, takeHomeGrams, group } of observations.slice(done, stop))
      accumulate(
        sums,
        takeHomeGrams === undefined ? { hangingGrams, group } : { hangingGrams, takeHomeGrams, group },
      );
    done = stop;
    const model = modelFrom(profiles, sums);
    return request.groups.map((group) => takeHomeRange(model, group, request.level));
  });
}

/** A copy of its own, to be added to. */
function takeHomeSums(sums: YieldSums): Record<string, Cell> {
  return Object.fromEntries(
    Object.entries(sums).map(
      ([
        key,
        {
          group,
          splits: { takeHome },
        },
      ]) => [key, { group, splits: takeHome ? { takeHome: { ...takeHome } } : {}, pairs: {} }],
    ),
  );
}

/** Half the width of the sum in u: beyond sinh 6 = 202 spreads nothing is left. */
const MAX_U = 6;
const STEP = 0.05;
/** Points of the sum, t = sinh u, and how wide a stretch of t each stands for but for the step. */
const QUADRATURE_POINTS = Array.from({ length: (2 * MAX_U) / STEP + 1 }, (_, i) => {
  const u = i * STEP - MAX_U;
  return { t: Math.sinh(u), width: Math.cosh(u) };
});

function meanShare({ location, scale, degrees }: StudentT): number {
  let [all, mean] = [0, 0];
  for (const { t, width } of QUADRATURE_POINTS) {
    const weight = width * (1 + (t * t) / degrees) ** (-(degrees + 1) / 2);
    all += weight;
    mean += weight * inverseLogit(location + scale * t);
  }
  return mean / all;
}
