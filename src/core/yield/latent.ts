/**
 * A one-factor model of how damage correlates with the other splits. Discarded meat is neither taken home nor left
 * on the bone, so several shares of damaged animals are low together. Each animal has a standard normal damage
 * score: below a cut point there is no damage, above it damage grows with the score. Every other split has its own
 * correlation with the score, and given the score the splits are independent.
 */
import { normalQuantile } from '../stats/distributions.ts';
import type { Group } from './observation.ts';
import { PAIRED_SPLITS, type Cell, type PairedSplit, type PairSums } from './sums.ts';

/** Mean and standard deviation of the score of animals without and with damage; over all animals it has mean 0 and variance 1. */
export interface Score {
  readonly none: { readonly mean: number; readonly sd: number };
  readonly some: { readonly mean: number; readonly sd: number };
}

/** Prior sample size of zero correlation. Our own choice. */
const PRIOR_ANIMALS = 3;

/** Correlations are limited to ± this. */
const MAX_CORRELATION = 0.95;

/**
 * The score where a share `probabilityOfNone` of the animals has none: moments of a normal cut in two (Johnson, Kotz & Balakrishnan,
 * Continuous Univariate Distributions 1, 1994, section 13.10.1; from memory).
 * @example scoreOf(0.5).some.mean // 0.798
 */
export function scoreOf(probabilityOfNone: number): Score {
  if (probabilityOfNone <= 0) return { none: { mean: 0, sd: 1 }, some: { mean: 0, sd: 1 } };
  const cut = normalQuantile(probabilityOfNone);
  const density = Math.exp((-cut * cut) / 2) / Math.sqrt(2 * Math.PI);
  const below = -density / probabilityOfNone;
  const above = density / (1 - probabilityOfNone);
  return {
    none: { mean: below, sd: Math.sqrt(1 + cut * below - below * below) },
    some: { mean: above, sd: Math.sqrt(1 + cut * above - above * above) },
  };
}

/** Distribution of one animal of a kind on the logit scale. */
type DistributionOf = (
  group: Group,
  split: PairedSplit | 'damage',
) => { readonly location: number; readonly scale: number };

/**
 * The correlation of each split with the damage score, from animals with known damage, shrunk towards 0.
 * @param cells of one pool
 * @param probabilityOfNone as `chancesOfNone` of these cells gives it
 */
export function correlationsWithDamage(
  cells: readonly Cell[],
  probabilityOfNone: (group: Group) => number,
  distributionOf: DistributionOf,
): Record<PairedSplit, number> {
  const sums = Object.fromEntries(
    PAIRED_SPLITS.map((split) => [
      split,
      { products: 0, squares: PRIOR_ANIMALS, scores: PRIOR_ANIMALS, unobserved: 0 },
    ]),
  ) as Record<PairedSplit, Products>;
  for (const { group, pairs } of cells) {
    if (!PAIRED_SPLITS.some((split) => pairs[split])) continue;
    const score = scoreOf(probabilityOfNone(group));
    const damage = distributionOf(group, 'damage');
    for (const split of PAIRED_SPLITS) {
      const pair = pairs[split];
      if (pair) addCell(sums[split], pair, { score, damage, own: distributionOf(group, split) });
    }
  }
  return Object.fromEntries(
    PAIRED_SPLITS.map((split) => {
      const { products, squares, scores, unobserved } = sums[split];
      // The slope on the observed scores, times the SD of the whole score over that of the split.
      const correlation = (products / scores) * Math.sqrt((scores + unobserved) / squares);
      return [split, Math.min(MAX_CORRELATION, Math.max(-MAX_CORRELATION, correlation))];
    }),
  ) as Record<PairedSplit, number>;
}

/** Sums over animals of split × score and of both squares, in standard units. */
interface Products {
  products: number;
  squares: number;
  scores: number;
  /** Variance of the censored scores of animals without damage. */
  unobserved: number;
}

/** Adds the animals of one cell. What follows are sums over z = (x - middle) / spread, from the sums over x. */
function addCell(
  sums: Products,
  { clean, cleanX, cleanXX, some: n, x, y, xx, yy, xy }: PairSums,
  {
    score: { none, some },
    damage,
    own,
  }: { score: Score; damage: ReturnType<DistributionOf>; own: ReturnType<DistributionOf> },
): void {
  const [m, d] = [own.location, damage.location];
  const cleanZ = (cleanX - clean * m) / own.scale;
  const [zOwn, zDamage] = [(x - n * m) / own.scale, (y - n * d) / damage.scale];
  const zBoth = (xy - m * y - d * x + n * m * d) / (own.scale * damage.scale);
  const zDamage2 = (yy - 2 * d * y + n * d * d) / damage.scale ** 2;
  sums.products += none.mean * cleanZ + some.mean * zOwn + some.sd * zBoth;
  sums.squares += (cleanXX + xx - 2 * m * (cleanX + x) + (clean + n) * m * m) / own.scale ** 2;
  sums.scores += clean * none.mean ** 2;
  sums.unobserved += clean * none.sd ** 2;
  sums.scores += n * some.mean ** 2 + 2 * some.mean * some.sd * zDamage + some.sd ** 2 * zDamage2;
}
