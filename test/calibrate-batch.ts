/**
 * Made-up shops to try the range of a batch's fat on: does it hold 9 in 10 batches, and how much wider is it than the range
 * of somebody who knows the shop's true figures? The first world is the one that the model believes in; the others break
 * one of its beliefs.
 */
import type { GrindSource } from '../src/book/tested-grinds.ts';
import { normalQuantile } from '../src/core/distributions.ts';
import { fatOfKind } from '../src/core/fat-kind.ts';
import { spreadRatios } from '../src/core/fat-spread.ts';
import { seeded, type Chance } from '../src/core/random.ts';
import { binomialBand } from './calibrate-run.ts';
import { mixtureOf, type FatBelieved } from '../src/desk/fat-believed.ts';
import { afterTests, believedAt, NOTHING_TESTED, type FatState } from '../src/desk/fat-knowledge.ts';
import { FATS, speciesOf } from '../src/desk/resources.ts';

export interface BatchWorld {
  readonly name: string;
  /** Animal-to-animal SD as a multiple of the assumed one; drawn from its prior where it is left out. */
  readonly ownRatio?: number;
  /**
   * How many prior SDs the shop's mean of each kind lies from the published figure, but no lower than meat can be; drawn
   * where it is left out.
   */
  readonly meanOff?: number;
  /** How an animal differs from the mean of its kind: unit variance either way. */
  readonly error: 'normal' | 'gamma';
  /** How much of the doubt about a kind's mean all kinds share. */
  readonly kindsShare: 'as believed' | 'nothing';
}

const BELIEVED: BatchWorld = { name: 'as the model believes', error: 'normal', kindsShare: 'as believed' };
export const BATCH_WORLDS: readonly BatchWorld[] = [
  BELIEVED,
  { ...BELIEVED, name: 'animals half as far apart', ownRatio: 0.5 },
  { ...BELIEVED, name: 'animals twice as far apart', ownRatio: 2 },
  { ...BELIEVED, name: 'skewed fat (gamma)', error: 'gamma' },
  { ...BELIEVED, name: 'mean 2 prior SDs up', meanOff: 2 },
  { ...BELIEVED, name: 'mean 2 prior SDs down, or none', meanOff: -2 },
  { ...BELIEVED, name: 'kinds share nothing', kindsShare: 'nothing' },
];

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
const KINDS = ['white-tail', 'elk', 'wild-boar'] as const;
const TARGET = 0.2;
/** SD of a quick fat test, as the desk takes it. */
const TEST_SD = 0.01;
const BACK_FAT = FATS.find(({ code }) => code === 'pork-back-fat');
const BATCHES_A_LOT = 8;
/** No trim is leaner: muscle itself holds so much fat. Common practice, no source. */
const LEANEST = 0.005;

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
    const shop = openShop(world, seeded(seed * 1_000_003 + i));
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

/** What went in: an animal's trim or a lot of fat, as the book tells it, and its true fat. */
interface Part extends GrindSource {
  trueFat: number;
  trueOwnSd: number;
}

interface Shop {
  readonly chance: Chance;
  /** A batch of new animals of these kinds (by their number), filled up with bought fat. */
  fill(kinds: readonly number[]): { parts: Part[]; fat: number; ownSd: number };
  /** Grinds, tests and learns one batch. */
  testOne(): void;
  believed(): FatBelieved;
}

function openShop(world: BatchWorld, chance: Chance): Shop {
  const { kindsShare } = world;
  const shopZ = chance.normal();
  const kinds = KINDS.map((species) => {
    const { mean, shopSd, kindSd, ownSd } = fatOfKind(speciesOf(species).trimFat);
    const off =
      world.meanOff !== undefined
        ? world.meanOff * mean.sd
        : kindsShare === 'nothing'
          ? mean.sd * chance.normal()
          : shopSd * shopZ + kindSd * chance.normal();
    const ratio = world.ownRatio ?? Math.sqrt(drawRatio(chance));
    const drawn = world.meanOff === undefined;
    return {
      species,
      mean: drawn ? mean.mean + off : Math.max(LEANEST, mean.mean + off),
      ownSd: ownSd * ratio,
    };
  });
  let state: FatState = NOTHING_TESTED;
  let animals = 0;
  let batches = 0;
  let lot = newLot();
  /** An animal that the last batch left trim of: it goes into the next, too. */
  let left: Part | undefined;

  function newLot() {
    if (!BACK_FAT) throw new Error('no back fat');
    return {
      id: batches + 1,
      fat: BACK_FAT.fat,
      sd: BACK_FAT.sd,
      trueFat: BACK_FAT.fat + BACK_FAT.sd * chance.normal(),
    };
  }
  function animal(kind: number): Part {
    const { species, mean, ownSd } = kinds[kind] as (typeof kinds)[number];
    const deviation = world.error === 'normal' ? chance.normal() : (chance.gamma(2) - 2) / Math.SQRT2;
    animals++;
    return {
      batch: batches, animal: animals, species, lot: null, lot_fat: null, lot_fat_sd: null,
      grams: 10_000 * Math.exp(0.4 * chance.normal()), until: null,
      trueFat: mean + ownSd * deviation, trueOwnSd: ownSd,
    }; // prettier-ignore
  }
  function filled(trim: readonly Part[]) {
    const grams = trim.reduce((sum, part) => sum + part.grams, 0);
    const lean = mixtureOf(believedNow(), trim.map(weighedAs))?.mean ?? 0;
    const fat: Part = {
      batch: batches, animal: null, species: null, lot: lot.id, lot_fat: lot.fat, lot_fat_sd: lot.sd,
      grams: (grams * Math.max(0.01, TARGET - lean)) / (lot.fat - TARGET), until: null,
      trueFat: lot.trueFat, trueOwnSd: 0,
    }; // prettier-ignore
    const parts = [...trim, fat];
    const all = grams + fat.grams;
    return {
      parts,
      fat: parts.reduce((sum, part) => sum + part.grams * part.trueFat, 0) / all,
      ownSd: Math.hypot(...parts.map((part) => part.grams * part.trueOwnSd)) / all,
    };
  }
  const believedNow = () => believedAt(state, { of: speciesOf });
  const pick = (): number => (chance.uniform() < 0.7 ? 0 : 1 + Math.floor(2 * chance.uniform()));

  return {
    chance,
    believed: believedNow,
    fill: (of) => filled(of.map(animal)),
    testOne() {
      batches++;
      if (batches % BATCHES_A_LOT === 1) lot = newLot();
      const kind = pick();
      const size = 1 + Math.floor(3 * chance.uniform() ** 2);
      const trim = Array.from({ length: size }, () => animal(chance.uniform() < 0.9 ? kind : pick()));
      if (left) trim.push({ ...left, batch: batches });
      const { parts, fat } = filled(trim);
      // One in five animals is ground in two batches; the others are gone with this one.
      left = chance.uniform() < 0.2 ? trim[0] : undefined;
      const until = (part: Part): number | null => (part.lot !== null || part === left ? null : batches);
      const measured = Math.min(1, Math.max(0, fat + TEST_SD * chance.normal()));
      state = afterTests(
        state,
        batches,
        parts.map((part) => ({ ...part, until: until(part) })),
        [{ batch: batches, fat: measured, sd: TEST_SD }],
        { of: speciesOf },
      );
    },
  };
}

function drawRatio(chance: Chance): number {
  let left = chance.uniform();
  for (const { ratio, probability } of spreadRatios()) {
    left -= probability;
    if (left <= 0) return ratio;
  }
  return 1;
}

function weighedAs({ animal, species, lot, lot_fat, lot_fat_sd, grams }: Part) {
  return { animal_id: animal, species, fat_lot_id: lot, lot_fat, lot_fat_sd, grams };
}
