/**
 * Made-up shops to try the range of a batch's fat on. The first world is the one that the model believes in; the others
 * break one of its beliefs.
 */
import type { GrindSource } from '../../src/book/records/tested-grinds.ts';
import { fatOfKind } from '../../src/core/fat/kind.ts';
import { fatFromSiblings, fatLessonFrom, type FatLesson } from '../../src/core/fat/siblings.ts';
import { spreadRatios } from '../../src/core/fat/spread.ts';
import type { RandomGenerator } from '../../src/core/stats/random.ts';
import { kindKey, mixtureOf, SHOP, type FatEstimates } from '../../src/desk/learning/fat-estimates.ts';
import {
  afterTests,
  estimatesAt,
  PRIOR_STATE,
  type FatState,
} from '../../src/desk/learning/fat-knowledge.ts';
import { FATS } from '../../src/desk/supplied/resources.ts';

export interface BatchWorld {
  readonly name: string;
  /** Animal-to-animal SD as a multiple of the assumed one; drawn from its prior where it is left out. */
  readonly ownRatio?: number;
  /** How many prior SDs the shop's mean of each kind lies from the published figure; drawn where it is left out. */
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
  { ...BELIEVED, name: 'mean 2 prior SDs down', meanOff: -2 },
  { ...BELIEVED, name: 'kinds share nothing', kindsShare: 'nothing' },
];

/**
 * Three kinds, made up: far enough from no fat at all that a normal spread stays above it, whatever is published next of
 * real ones.
 */
const KINDS: Readonly<Record<string, { mean: number; sd: number }>> = {
  first: { mean: 0.07, sd: 0.025 },
  second: { mean: 0.09, sd: 0.03 },
  third: { mean: 0.06, sd: 0.02 },
};
const shelf = {
  of(species: string) {
    const trimFat = KINDS[species];
    if (!trimFat) throw new RangeError(species);
    return { trimFat };
  },
};
const TARGET = 0.2;
/** SD of a quick fat test, as the desk takes it. */
export const TEST_SD = 0.01;
const BACK_FAT = FATS.find(({ code }) => code === 'pork-back-fat');
const BATCHES_A_LOT = 8;

/** What went in: an animal's trim or a lot of fat, as the book tells it, and its true fat. */
export interface Part extends GrindSource {
  trueFat: number;
  trueOwnSd: number;
}

export interface Shop {
  readonly chance: RandomGenerator;
  /** What its tests so far teach others. */
  lesson(): FatLesson | null;
  /** A batch of new animals of these kinds (by their number), filled up with bought fat. */
  fill(kinds: readonly number[]): { parts: Part[]; fat: number; ownSd: number };
  /** Grinds, tests and learns one batch. */
  testOne(): void;
  believed(): FatEstimates;
}

/** What the shops of one owner have in common: the share of each variance, and the owner's part in standard deviations. */
export interface FatOwner {
  readonly alike: number;
  shared(name: string): number;
  /** What other shops taught the one that is opened. */
  readonly taught: readonly FatLesson[];
}

/** One shop of a world, its means and spreads drawn. */
export function openShop(world: BatchWorld, chance: RandomGenerator, owner?: FatOwner): Shop {
  const { kindsShare } = world;
  const drawn = (name: string): number => {
    const own = chance.normal();
    return owner ? Math.sqrt(owner.alike) * owner.shared(name) + Math.sqrt(1 - owner.alike) * own : own;
  };
  const shopZ = drawn('hand');
  const kinds = Object.keys(KINDS).map((species) => {
    const { mean, shopSd, kindSd, ownSd } = fatOfKind(shelf.of(species).trimFat);
    const off =
      world.meanOff !== undefined
        ? world.meanOff * mean.sd
        : kindsShare === 'nothing'
          ? mean.sd * chance.normal()
          : shopSd * shopZ + kindSd * drawn(species);
    const ratio = world.ownRatio ?? Math.sqrt(drawRatio(chance));
    return { species, mean: mean.mean + off, ownSd: ownSd * ratio };
  });
  const published = Object.entries(KINDS).map(([species, trimFat]) => ({ species, trimFat }));
  let state: FatState = owner?.taught.length
    ? {
        ...PRIOR_STATE,
        estimates: fatFromSiblings(published, owner.taught, { shop: SHOP.id, kind: kindKey }),
      }
    : PRIOR_STATE;
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
  const believedNow = () => estimatesAt(state, shelf);
  const pick = (): number => (chance.uniform() < 0.7 ? 0 : 1 + Math.floor(2 * chance.uniform()));

  return {
    chance,
    lesson: () =>
      fatLessonFrom(
        published.map((kind) => ({ ...kind, animals: animals })),
        state.estimates,
        kindKey,
      ),
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
        shelf,
      );
    },
  };
}

function drawRatio(chance: RandomGenerator): number {
  let left = chance.uniform();
  for (const { ratio, probability } of spreadRatios()) {
    left -= probability;
    if (left <= 0) return ratio;
  }
  return 1;
}

/** As the desk reads it from the book. */
export function weighedAs({ animal, species, lot, lot_fat, lot_fat_sd, grams }: Part) {
  return { animal_id: animal, species, fat_lot_id: lot, lot_fat, lot_fat_sd, grams };
}
