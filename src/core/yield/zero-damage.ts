/**
 * Animals of which there is none of a part: a clean shot leaves no damage at all. No smooth spread of shares holds such a
 * lump at zero, so it has a probability of its own, and the smooth spread is that of the animals that have some.
 */
import type { Group } from './observation.ts';
import type { Cell } from './sums.ts';

/**
 * Before any animal was weighed: one in eight has no damage, and that counts as two animals. Assumption: the published
 * figures are means over clean and bad shots together, and say only that clean ones lose next to nothing.
 */
const PRIOR = { probability: 0.125, animals: 2 } as const;
/** What the animals of the next wider kind say counts as so many of this one. Our own choice. */
const PARENT_LEVEL_ANIMALS = 4;

/** The probability of no damage before any animal was weighed. */
export const PRIOR_PROBABILITY_OF_NONE = PRIOR.probability;

/**
 * Mean and standard deviation of a published share among the animals that have any, such that together with those that
 * have none both are as published.
 * @example amongSome({ mean: 0.4, sd: 0.3 }) // { mean: 0.457, sd: 0.281 }
 */
export function momentsAmongDamaged({ mean, sd }: { mean: number; sd: number }): {
  mean: number;
  sd: number;
} {
  const some = Math.min(mean / (1 - PRIOR.probability), (1 + mean) / 2);
  const variance = (mean * mean + sd * sd) / (1 - PRIOR.probability) - some * some;
  // A spread too narrow to leave room for animals without any is kept half as wide.
  return { mean: some, sd: Math.sqrt(Math.max(variance, (sd * sd) / 4)) };
}

/**
 * Probability that one more animal of a kind has no damage: a beta-binomial mean that begins with `BEFORE` and is moved by
 * all animals, then by those with the same shot damage stated, then by those of the species among them. The cells are
 * counted once, whatever is asked afterwards.
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
    const inShop = (PRIOR.probability * PRIOR.animals + all.none) / (PRIOR.animals + all.observed);
    return narrower.reduce(
      (wider, { none, observed }) =>
        (wider * PARENT_LEVEL_ANIMALS + none) / (PARENT_LEVEL_ANIMALS + observed),
      inShop,
    );
  };
}

/** Animals whose damage is known, and those of them that have none. */
interface Count {
  readonly none: number;
  readonly observed: number;
}
const NO_ANIMALS: Count = { none: 0, observed: 0 };

/** The wider kinds that an animal belongs to, the widest first. */
function keysOf({ species, damage = 'unknown' }: Group): string[] {
  return ['', damage, `${damage}/${species}`];
}
