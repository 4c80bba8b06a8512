/** Does the range of a batch's yield hold 8 in 10 batches? In the made-up shops of `loss-world.ts`, one batch a shop. */
import { LEARNED_BATCHES, learnLoss, type LossBatch } from '../../src/core/loss/loss.ts';
import { seededRandom } from '../../src/core/stats/random.ts';
import { binomialBand } from './coverage.ts';
import { KINDS, LOSS_WORLDS, openLossShop, PREDICTED, type LossWorld } from './loss-world.ts';

export const LOSS_LEVEL = 0.8;
/** Batches of the product that the shop weighed before. */
export const WEIGHED_BATCHES = [0, 1, 2, 4, 5, 8, 20, 60] as const;
/** Of its other products together. */
const OTHERS = 9;

export interface LossCoverage {
  shops: number;
  inside: number;
  /** Sum of the widths of the ranges, as shares of the raw weight. */
  width: number;
}

/** Of so many shops that weighed so many batches, how many had their next one inside the range. */
export function lossCoverage(world: LossWorld, weighed: number, shops: number, seed: number): LossCoverage {
  const counts: LossCoverage = { shops, inside: 0, width: 0 };
  for (let shop = 0; shop < shops; shop++) {
    const next = openLossShop(world, seededRandom(seed * 1_000_003 + shop));
    const seen: LossBatch[] = [
      ...Array.from({ length: weighed }, () => next(0)),
      ...Array.from({ length: OTHERS }, (_, i) => next(1 + (i % 3))),
    ];
    const { low, high } = learnLoss(seen, KINDS).forecast(PREDICTED, PREDICTED, LOSS_LEVEL);
    const { inGrams, outGrams } = next(0);
    const share = outGrams / inGrams;
    if (share >= low && share <= high) counts.inside++;
    counts.width += high - low;
  }
  return counts;
}

/** What `npm run calibrate` prints: coverage with * where it falls outside an honest count's band, and the mean width. */
export function lossTable(shops: number): { titles: string[]; rows: string[][]; note: string } {
  const percent = (share: number): string => (100 * share).toFixed(1);
  const band = binomialBand(LOSS_LEVEL, shops);
  const rows = LOSS_WORLDS.map((world, seed) => [
    world.name,
    ...WEIGHED_BATCHES.map((weighed) => {
      const { inside, width } = lossCoverage(world, weighed, shops, seed + 1);
      const star = Math.abs(inside / shops - LOSS_LEVEL) > band ? '*' : '';
      return `${percent(inside / shops)}${star} (${percent(width / shops)})`;
    }),
  ]);
  return {
    titles: ['world', ...WEIGHED_BATCHES.map((weighed) => `${weighed} weighed`)],
    rows,
    note: `An honest count of ${shops} shops falls within ${percent(LOSS_LEVEL)} ± ${percent(band)}; * marks those outside. In brackets: mean width in points of the raw weight. Below ${LEARNED_BATCHES} batches the program says what it assumes.`,
  };
}
