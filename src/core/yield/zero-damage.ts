/**
 * Zero inflation of damage: a clean shot leaves none at all. Continuous distributions have no point mass, so zero
 * has its own probability, and the continuous distribution applies to animals with some damage.
 */
import type { Group } from './observation.ts';
import type { Cell } from './sums.ts';

/**
 * The prior: one animal in eight has no damage, with a sample size of two animals. Assumption: the published figures are
 * means over clean and bad shots together, and say only that clean ones lose next to nothing.
 */
const PRIOR = { probability: 0.125, animals: 2 } as const;
/** Prior sample size of the next wider kind's probability. Our own choice. */
const PARENT_LEVEL_ANIMALS = 4;

/** The prior probability of no damage. */
export const PRIOR_PROBABILITY_OF_NONE = PRIOR.probability;

/**
 * Probability that one more animal has no damage, where so many of the observed ones had none: the mean of the beta
 * distribution that starts at the prior.
 * @example probabilityOfNone(0, 0) // 0.125
 */
export function probabilityOfNone(none: number, observed: number): number {
  return (PRIOR.probability * PRIOR.animals + none) / (PRIOR.animals + observed);
}

/**
 * Mean and standard deviation among animals with damage such that the zero-inflated mixture has the published moments.
 * @example momentsAmongDamaged({ mean: 0.4, sd: 0.3 }) // { mean: 0.457, sd: 0.281 }
 */
export function momentsAmongDamaged({ mean, sd }: { mean: number; sd: number }): {
  mean: number;
  sd: number;
} {
  const some = Math.min(mean / (1 - PRIOR.probability), (1 + mean) / 2);
  const variance = (mean * mean + sd * sd) / (1 - PRIOR.probability) - some * some;
  // A published SD too narrow for a point mass at zero is kept at half its width.
  return { mean: some, sd: Math.sqrt(Math.max(variance, (sd * sd) / 4)) };
}

/**
 * Probability that one more animal of a kind has no damage: a hierarchical beta-binomial mean over all animals, those with
 * the same stated shot damage, and those of the species among them, starting at `PRIOR`. The cells are counted once.
 * @param cells of one pool
 */
export function fitProbabilityOfNone(cells: readonly Cell[]): (group: Group) => number {
  const counts = new Map<string, Count>();
  for (const { group, splits } of cells) {
    if (!splits.damage) continue;
    const { none, n } = splits.damage;
    for (const key of keysOf(group)) {
      const { none: before, observed } = counts.get(key) ?? NO_ANIMALS;
      counts.set(key, { none: before + none, observed: observed + none + n });
    }
  }
  return (group) => {
    const [all = NO_ANIMALS, ...narrower] = keysOf(group).map((key) => counts.get(key) ?? NO_ANIMALS);
    const inShop = probabilityOfNone(all.none, all.observed);
    return narrower.reduce(
      (wider, { none, observed }) =>
        (wider * PARENT_LEVEL_ANIMALS + none) / (PARENT_LEVEL_ANIMALS + observed),
      inShop,
    );
  };
}

/** Animals with known damage, and those of them without any. */
interface Count {
  readonly none: number;
  readonly observed: number;
}
const NO_ANIMALS: Count = { none: 0, observed: 0 };

/** The levels of the hierarchy that an animal belongs to, the widest first. */
function keysOf({ species, damage = 'unknown' }: Group): string[] {
  return ['', damage, `${damage}/${species}`];
}
