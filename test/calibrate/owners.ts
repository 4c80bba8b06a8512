/**
 * A new shop of an owner with other shops: do its 80 % ranges hold 8 in 10 animals from the first one on, and how wide are they
 * beside those of the same shop without siblings? In made-up owners whose shops are more or less alike.
 */
import { seededRandom } from '../../src/core/stats/random.ts';
import { predictSplits } from '../../src/core/yield/predict.ts';
import { lessonsFrom, modelFrom, summarise, takeHomeRange, type Group, type YieldLesson, type YieldModel } from '../../src/core/yield/yield.ts'; // prettier-ignore
import { splitsHeld } from './new-kind.ts';
import {
  drawOwner,
  openShop,
  profiles,
  weigh,
  WORLDS,
  type Animal,
  type Owner,
  type World,
} from './world.ts';

export interface OwnerWorld {
  readonly name: string;
  /** Share of the variance between shops that is the owner's; drawn from 0 to 1 where it is left out. */
  readonly alike?: number;
  /** Which shop has nothing in common with the others. */
  readonly odd?: 'a sibling' | 'the new shop';
  /** How much farther apart shops are than believed, in variance. */
  readonly apart?: number;
}

export const OWNER_WORLDS: readonly OwnerWorld[] = [
  { name: 'alike (95 % in common)', alike: 0.95 },
  { name: 'half in common', alike: 0.5 },
  { name: 'drawn: 0 to 100 % in common' },
  { name: 'unlike (nothing in common)', alike: 0 },
  { name: 'unlike, twice as far apart', alike: 0, apart: 2 },
  { name: 'alike, one sibling odd', alike: 0.95, odd: 'a sibling' },
  { name: 'alike, the new shop odd', alike: 0.95, odd: 'the new shop' },
];
/** Shops of the owner, the new one included. */
export const SHOPS_OF_OWNER = [2, 4, 8] as const;
/** Animals that the new shop weighed before. */
export const OWN_ANIMALS = [0, 1, 5, 20, 80] as const;
const LEVEL = 0.8;
const PROFILE_CODES: ReadonlySet<string> = new Set(profiles.map(({ code }) => code));

export interface OwnerHeld {
  readonly own: number;
  owners: number;
  /** Take-home of the next animal inside the range, and the summed widths of the ranges. */
  inside: number;
  width: number;
  /** Splits inside their ranges, as a share of each animal's. */
  splits: number;
  /** The same without siblings. */
  aloneInside: number;
  aloneWidth: number;
}

/** One owner after the other; each new shop predicts one animal at each of these stages. */
export function ownersHeld(
  world: OwnerWorld,
  shops: number,
  owners: number,
  seed: number,
  stages: readonly number[] = OWN_ANIMALS,
): OwnerHeld[] {
  const held = stages.map((own) => ({ own, owners, inside: 0, width: 0, splits: 0, aloneInside: 0, aloneWidth: 0 })); // prettier-ignore
  for (let i = 0; i < owners; i++) {
    const chance = seededRandom(seed * 1_000_003 + i);
    const owner = drawOwner(world.alike ?? chance.uniform(), seed * 7_000_003 + i);
    const open = (shop: number) => {
      const isOdd = (world.odd === 'a sibling' && shop === 1) || (world.odd === 'the new shop' && shop === 0);
      return openShop(yieldWorld(world), seed * 1_000_003 + 97 * i + 31_000_019 * shop, undefined, isOdd ? alone(owner) : owner); // prettier-ignore
    };
    const siblings = Array.from({ length: shops - 1 }, (_, k) => lessonsOfShop(open(k + 1), 40 + Math.floor(260 * chance.uniform()))); // prettier-ignore
    const { next, chance: ofShop } = open(0);
    const seen: ReturnType<typeof weigh>[] = [];
    for (const stage of held) {
      while (seen.length < stage.own) seen.push(weigh(next(), BELIEVED, ofShop));
      const animal = onTheBone(next);
      const sums = summarise(seen);
      const model = modelFrom(profiles, sums, siblings);
      count(stage, animal, model, modelFrom(profiles, sums));
    }
  }
  return held;
}

const BELIEVED = WORLDS[0] as World;

function yieldWorld({ apart = 1 }: OwnerWorld): World {
  return { ...BELIEVED, effects: Math.sqrt(apart) };
}

function alone(owner: Owner): Owner {
  return { ...owner, alike: 0 };
}

/** What a shop that weighed so many animals gives to others. */
export function lessonsOfShop({ next, chance }: ReturnType<typeof openShop>, animals: number): YieldLesson[] {
  const seen = Array.from({ length: animals }, () => weigh(next(), BELIEVED, chance));
  return lessonsFrom(summarise(seen), PROFILE_CODES);
}

function count(held: OwnerHeld, animal: Animal, model: YieldModel, without: YieldModel): void {
  const { group, hangingGrams, parts } = animal;
  const share = parts.takeHome / hangingGrams;
  const [with_, plain] = [rangeOf(model, group), rangeOf(without, group)];
  const holds = ({ low, high }: { low: number; high: number }): number => (low <= share && share <= high ? 1 : 0);
  held.inside += holds(with_);
  held.width += with_.high - with_.low;
  held.aloneInside += holds(plain);
  held.aloneWidth += plain.high - plain.low;
  held.splits += splitsHeld(predictSplits(model, group), animal);
} // prettier-ignore

function rangeOf(model: YieldModel, group: Group): { low: number; high: number } {
  return takeHomeRange(model, group, LEVEL);
}

function onTheBone(next: () => Animal): Animal {
  for (;;) {
    const animal = next();
    if (animal.group.brought !== 'boned') return animal;
  }
}
