/** How the predicted take-home moved during a season, animal by animal. */
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
 * The predictive interval of the take-home share of an animal of this kind. Exact where `predict` simulates: the
 * share is monotone in its logit, so its quantiles are those of the Student's t, and its mean is an integral by the
 * trapezoidal rule in u with t = sinh u.
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
 * The ranges of `groups` after the first `stop` animals, for each of `stops` (ascending; 0 for before the first). The sums
 * are updated in place, so earlier animals cost nothing.
 * @param before sums of all animals of earlier seasons
 * @throws ValidationError as `takeHomeRange`, `addObservation` and `modelFrom`
 */
export function predictionPath(
  profiles: readonly SpeciesProfile[],
  before: YieldSums,
  observations: readonly YieldObservation[],
  request: {
    groups: readonly Group[];
    stops: readonly number[];
    level: number;
    /** What other shops teach: known before the first animal. */
    shops?: Parameters<typeof modelFrom>[2];
  },
): Range[][] {
  // Only the take-home is needed; the other splits are left out of the sums.
  const sums = takeHomeSums(before);
  let done = 0;
  return request.stops.map((stop) => {
    for (const { hangingGrams, takeHomeGrams, group } of observations.slice(done, stop))
      accumulate(
        sums,
        takeHomeGrams === undefined ? { hangingGrams, group } : { hangingGrams, takeHomeGrams, group },
      );
    done = stop;
    const model = modelFrom(profiles, sums, request.shops);
    return request.groups.map((group) => takeHomeRange(model, group, request.level));
  });
}

/** A mutable copy with the take-home alone. */
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

/** Half the width of the integral in u: beyond sinh 6 = 202 scales the density is negligible. */
const MAX_U = 6;
const STEP = 0.05;
/** Quadrature points t = sinh u with their weights dt/du. */
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
