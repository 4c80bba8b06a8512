/**
 * Does the range of a batch's fat hold 9 in 10 batches, and how much wider is it than the range of somebody who knows the
 * shop's true figures? In the made-up shops of `batch-world.ts`.
 */
import { normalQuantile } from '../../src/core/stats/distributions.ts';
import { seededRandom } from '../../src/core/stats/random.ts';
import { mixtureOf } from '../../src/desk/learning/fat-estimates.ts';
import { BATCH_WORLDS, openShop, TEST_SD, weighedAs, type BatchWorld, type Shop } from './batch-world.ts';
import { binomialBand } from './coverage.ts';

/** Animals in the batch that is predicted, all of one kind; `mixed` is four of three kinds. */
export const BATCH_SIZES = [1, 2, 4, 6, 10, 'mixed'] as const;
/** Batches that the shop has tested before. */
export const TESTED = [0, 5, 20, 60] as const;

export interface BatchCount {
  batches: number;
  inside: number;
  /** Batches whose own fat test fell inside: the test's error is no part of the range. */
  testInside: number;
  /** Sums of the widths of the ranges, and of ranges that know the true means, spreads and lots. */
  width: number;
  idealWidth: number;
}

export type BatchCoverage = Record<number, Record<string, BatchCount>>;

const LEVEL = 0.9;
const REACH = normalQuantile((1 + LEVEL) / 2);
/** What `npm run calibrate` prints: coverage with * where it falls outside an honest count's band, and the mean widths. */
export function batchTable(shops: number): { titles: string[]; rows: string[][]; note: string } {
  const percent = (share: number): string => (100 * share).toFixed(1);
  const band = binomialBand(LEVEL, shops);
  const rows = BATCH_WORLDS.flatMap((world, seed) =>
    Object.entries(batchCoverage(world, shops, seed + 1)).map(([tested, of]) => {
      const cells = BATCH_SIZES.map((size) => {
        const { batches, inside, width, idealWidth } = of[size] as BatchCount;
        const held = inside / batches;
        const star = Math.abs(held - LEVEL) > band ? '*' : '';
        return `${percent(held)}${star} (${percent(width / batches)} / ${percent(idealWidth / batches)})`;
      });
      const ten = of[10] as BatchCount;
      return [world.name, tested, ...cells, percent(ten.testInside / ten.batches)];
    }),
  );
  const sizes = BATCH_SIZES.map((size) => (size === 'mixed' ? '4 of 3 kinds' : `${size} of a kind`));
  return {
    titles: ['world', 'tested', ...sizes, 'test of 10 inside'],
    rows,
    note: `An honest count of ${shops} shops falls within ${percent(LEVEL)} ± ${percent(band)}; * marks those outside. In brackets: mean width in points of fat, beside that of a range that knows the shop's means, spreads and lots. The last column counts the batch's own fat test, whose error is no part of the range.`,
  };
}

/** One batch a shop for each size and number of tests, so that each count is binomial. */
export function batchCoverage(
  world: BatchWorld,
  shops: number,
  seed: number,
  tested: readonly number[] = TESTED,
): BatchCoverage {
  const counts: BatchCoverage = {};
  for (const n of tested)
    counts[n] = Object.fromEntries(
      BATCH_SIZES.map((size) => [size, { batches: 0, inside: 0, testInside: 0, width: 0, idealWidth: 0 }]),
    );
  for (let i = 0; i < shops; i++) {
    const shop = openShop(world, seededRandom(seed * 1_000_003 + i));
    for (let n = 0; n <= Math.max(...tested); n++) {
      if (n > 0) shop.testOne();
      for (const size of counts[n] ? BATCH_SIZES : []) count(counts[n]?.[size] as BatchCount, shop, size);
    }
  }
  return counts;
}

function count(into: BatchCount, shop: Shop, size: (typeof BATCH_SIZES)[number]): void {
  const kinds = size === 'mixed' ? [0, 0, 1, 2] : Array.from({ length: size }, () => 0);
  const batch = shop.fill(kinds);
  const guess = mixtureOf(shop.believed(), batch.parts.map(weighedAs));
  if (!guess) throw new Error('an empty batch');
  const [low, high] = [guess.mean - REACH * guess.sd, guess.mean + REACH * guess.sd];
  const holds = (fat: number): number => (low <= fat && fat <= high ? 1 : 0);
  into.batches++;
  into.inside += holds(batch.fat);
  into.testInside += holds(batch.fat + TEST_SD * shop.chance.normal());
  into.width += high - low;
  into.idealWidth += 2 * REACH * batch.ownSd;
}
