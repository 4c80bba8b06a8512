/**
 * What an animal's damage has to do with how the rest of it divides. Meat that is thrown away is neither taken home nor left
 * on the bone, so shares of damaged animals lie low together. One standard normal score an animal stands for its damage: below
 * a cut there is none, above it the more the higher. Every other split leans on that score by its own correlation, and given
 * the score the splits are independent (a one-factor model).
 */
import { normalQuantile } from '../stats/distributions.ts';
import type { Group } from './observation.ts';
import { PAIRED_SPLITS, type Cell, type PairedSplit, type PairSums } from './sums.ts';

/** Mean and standard deviation of the score of animals without and with damage; over all animals it has mean 0 and variance 1. */
export interface Score {
  readonly none: { readonly mean: number; readonly sd: number };
  readonly some: { readonly mean: number; readonly sd: number };
}

/** How many animals the first guess, that damage has nothing to do with the other splits, counts for. Our own choice. */
const UNRELATED_ANIMALS = 3;

/** No split is all damage. */
const MOST = 0.95;

/**
 * The score where a share `chance` of the animals has none: moments of a normal cut in two (Johnson, Kotz & Balakrishnan,
 * Continuous Univariate Distributions 1, 1994, section 13.10.1; from memory).
 * @example scoreOf(0.5).some.mean // 0.798
 */
export function scoreOf(chance: number): Score {
  if (chance <= 0) return { none: { mean: 0, sd: 1 }, some: { mean: 0, sd: 1 } };
  const cut = normalQuantile(chance);
  const density = Math.exp((-cut * cut) / 2) / Math.sqrt(2 * Math.PI);
  const below = -density / chance;
  const above = density / (1 - chance);
  return {
    none: { mean: below, sd: Math.sqrt(1 + cut * below - below * below) },
    some: { mean: above, sd: Math.sqrt(1 + cut * above - above * above) },
  };
}

/** How one animal of a kind lies on the logit scale: mean and spread. */
type AnimalOf = (
  group: Group,
  split: PairedSplit | 'damage',
) => { readonly middle: number; readonly spread: number };

/**
 * The correlation of each split with the damage score, from animals whose damage is known, drawn towards 0.
 * @param cells of one pool
 * @param chanceOfNone as `chancesOfNone` of these cells gives it
 */
export function correlationsWithDamage(
  cells: readonly Cell[],
  chanceOfNone: (group: Group) => number,
  animalOf: AnimalOf,
): Record<PairedSplit, number> {
  const sums = Object.fromEntries(
    PAIRED_SPLITS.map((split) => [
      split,
      { products: 0, squares: UNRELATED_ANIMALS, scores: UNRELATED_ANIMALS, unseen: 0 },
    ]),
  ) as Record<PairedSplit, Products>;
  for (const { group, pairs } of cells) {
    if (!PAIRED_SPLITS.some((split) => pairs[split])) continue;
    const score = scoreOf(chanceOfNone(group));
    const damage = animalOf(group, 'damage');
    for (const split of PAIRED_SPLITS) {
      const pair = pairs[split];
      if (pair) add(sums[split], pair, { score, damage, own: animalOf(group, split) });
    }
  }
  return Object.fromEntries(
    PAIRED_SPLITS.map((split) => {
      const { products, squares, scores, unseen } = sums[split];
      // The slope on what is seen of the scores, times the spread of all of the score over that of the split.
      const correlation = (products / scores) * Math.sqrt((scores + unseen) / squares);
      return [split, Math.min(MOST, Math.max(-MOST, correlation))];
    }),
  ) as Record<PairedSplit, number>;
}

/** Sums over animals of the split times the score, and of the squares of both, in standard measure. */
interface Products {
  products: number;
  squares: number;
  scores: number;
  /** Variance of the score among animals without damage: what each of them would have scored is not seen. */
  unseen: number;
}

/** Adds the animals of one cell. What follows are sums over z = (x - middle) / spread, from the sums over x. */
function add(
  sums: Products,
  { clean, cleanX, cleanXX, some: n, x, y, xx, yy, xy }: PairSums,
  {
    score: { none, some },
    damage,
    own,
  }: { score: Score; damage: ReturnType<AnimalOf>; own: ReturnType<AnimalOf> },
): void {
  const [m, d] = [own.middle, damage.middle];
  const cleanZ = (cleanX - clean * m) / own.spread;
  const [zOwn, zDamage] = [(x - n * m) / own.spread, (y - n * d) / damage.spread];
  const zBoth = (xy - m * y - d * x + n * m * d) / (own.spread * damage.spread);
  const zDamage2 = (yy - 2 * d * y + n * d * d) / damage.spread ** 2;
  sums.products += none.mean * cleanZ + some.mean * zOwn + some.sd * zBoth;
  sums.squares += (cleanXX + xx - 2 * m * (cleanX + x) + (clean + n) * m * m) / own.spread ** 2;
  sums.scores += clean * none.mean ** 2;
  sums.unseen += clean * none.sd ** 2;
  sums.scores += n * some.mean ** 2 + 2 * some.mean * some.sd * zDamage + some.sd ** 2 * zDamage2;
}
