/**
 * Made-up shops to try the yield model on. Each world says how shops and animals come about; the first is the world
 * that the model believes in, the others break one of its beliefs.
 */
import { readFileSync } from 'node:fs';
import { seededRandom, type RandomGenerator } from '../../src/core/stats/random.ts';
import type { Age, Brought, Damage, Sex, SpeciesProfile } from '../../src/core/species/species.ts';
import { columnsOf, withinShopFactor } from '../../src/core/yield/columns.ts';
import { PRIOR_PROBABILITY_OF_NONE } from '../../src/core/yield/zero-damage.ts';
import { splitPriors } from '../../src/core/yield/prior.ts';
import {
  baseOf,
  divide,
  inverseLogit,
  SPLITS,
  type Base,
  type Part,
  type Split,
} from '../../src/core/yield/tree.ts';
import type { Group, YieldObservation } from '../../src/core/yield/yield.ts';

export const profiles = JSON.parse(
  readFileSync(new URL('../../resources/species.json', import.meta.url), 'utf8'),
) as SpeciesProfile[];

export interface World {
  readonly name: string;
  /** How much farther apart shops and kinds of animal are than believed (1 = as believed). */
  readonly effects: number;
  /** Each species' spread is multiplied by a number between 1 / this and this. */
  readonly uneven: number;
  /** How one animal differs from the mean of its kind: unit variance each. */
  readonly error: 'normal' | 'heavy' | 'skewed';
  /** Share of animals with no shot damage to weigh, where it is more than believed. */
  readonly undamaged: number;
  /** Share of animals that were weighed only on the hook and packed. */
  readonly weighedTwice: number;
  /** True when the animal to be quoted was weighed alive. */
  readonly quotedLive: boolean;
}

const BELIEVED: World = {
  name: 'as the model believes',
  effects: 1,
  uneven: 1,
  error: 'normal',
  undamaged: 0,
  weighedTwice: 0,
  quotedLive: false,
};

export const WORLDS: readonly World[] = [
  BELIEVED,
  { ...BELIEVED, name: 'shops twice as far apart', effects: Math.SQRT2 },
  { ...BELIEVED, name: 'species of unlike spread', uneven: 1.4 },
  { ...BELIEVED, name: 'heavy tails', error: 'heavy' },
  { ...BELIEVED, name: 'lopsided spread', error: 'skewed' },
  { ...BELIEVED, name: '7 in 10 weighed only twice', weighedTwice: 0.7 },
  { ...BELIEVED, name: 'a fifth without shot damage', undamaged: 0.2 },
  { ...BELIEVED, name: 'quoted from live weight', quotedLive: true },
];

export interface Animal {
  readonly hangingGrams: number;
  readonly liveGrams: number;
  readonly group: Required<Group>;
  readonly parts: Readonly<Record<Part, number>>;
}

/** A kind of animal whose true mean is not what is believed of it. */
export interface OffPrior {
  readonly by: 'species' | 'brought';
  /** A species' code or a way of bringing. */
  readonly level: string;
  /** How far its effect is off, in standard deviations of the species' profile; the sign of each split is drawn. */
  readonly sds: number;
  /** Of a species: its animal-to-animal standard deviation over the common one. */
  readonly spread: number;
}

/** What the shops of one owner have in common. */
export interface Owner {
  /** Species that all of them see much of. */
  readonly usual: readonly SpeciesProfile[];
  /** Share of the variance of an effect that is the owner's, 0 to 1. */
  readonly alike: number;
  /** The owner's part of an effect in standard deviations. */
  shared(pool: string, split: Split, column: string): number;
}

/** An owner drawn at random. */
export function drawOwner(alike: number, seed: number): Owner {
  const chance = seededRandom(seed);
  const drawn = new Map<string, number>();
  return {
    usual: Array.from({ length: 3 }, () => profiles[Math.floor(chance.uniform() * profiles.length)] as SpeciesProfile),
    alike,
    shared(...names) {
      const key = names.join('/');
      const value = drawn.get(key) ?? chance.normal();
      drawn.set(key, value);
      return value;
    },
  };
} // prettier-ignore

/** One shop of a world: it hands over one animal after the other, of whatever kind or as asked for. */
export function openShop(
  world: World,
  seed: number,
  off?: OffPrior,
  owner?: Owner,
): { next: (asked?: Partial<Group>) => Animal; chance: RandomGenerator } {
  const chance = seededRandom(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(chance.uniform() * list.length)] as T;
  // A shop sees much of a few species and little of others.
  const usual = owner?.usual ?? [pick(profiles), pick(profiles), pick(profiles)];
  const of = (pool: string): Tendency => tendency(world, chance, off, (split, column) => drawnFor(owner, chance, pool, split, column)); // prettier-ignore
  const tendencies = { bone: of('bone'), boned: of('boned') };

  function next(asked: Partial<Group> = {}): Animal {
    const arriving = chance.uniform() < 0.85 ? pick(usual) : pick(profiles);
    const profile = profiles.find(({ code }) => code === asked.species) ?? arriving;
    const group: Required<Group> = {
      species: profile.code,
      brought: pick<Brought>(['whole', 'whole', 'skinned', 'skinned', 'quarters', 'primals', 'boned']),
      sex: pick<Sex>(['male', 'male', 'female', 'unknown']),
      age: pick<Age>(['young', 'yearling', 'adult', 'adult', 'unknown']),
      damage: pick<Damage>(['none', 'some', 'some', 'heavy', 'unknown']),
      ...asked,
    };
    const base = baseOf(group.brought) as Base;
    const mean = base === 'boned' ? tendencies.boned : tendencies.bone;
    const priors = splitPriors(profile, base, group.sex);
    const kind = columnsOfKind(profile.family, group);
    const share = {} as Record<Split, number>;
    for (const split of SPLITS) {
      const { location, scale, animals } = priors[split];
      const { effect, spreadOf } = mean[split];
      const z = effect(kind, group.species) + spreadOf(profile.code) * deviation(world, chance);
      share[split] = inverseLogit(location + scale * withinShopFactor(animals) * z);
    }
    if (chance.uniform() < Math.max(PRIOR_PROBABILITY_OF_NONE, world.undamaged)) share.damage = 0;
    const hangingGrams = profile.hangingGrams.typical * Math.exp(0.25 * chance.normal());
    const { liveToDressed, dressedToHanging, liveToHanging } = profile.ratios;
    const ratio = liveToHanging
      ? liveToHanging.mean + liveToHanging.sd * chance.normal()
      : (liveToDressed.mean + liveToDressed.sd * chance.normal()) *
        (dressedToHanging.mean + dressedToHanging.sd * chance.normal());
    return { hangingGrams, liveGrams: hangingGrams / ratio, group, parts: divide(hangingGrams, share, base) };
  }
  return { next, chance };
}

/** What the shop's book holds of an animal. */
export function weigh(animal: Animal, world: World, chance: RandomGenerator): YieldObservation {
  const { hangingGrams, group, parts } = animal;
  const { wholeCuts, trim, fatSaved, bone, sinew, damage, takeHome } = parts;
  const twice = chance.uniform() < world.weighedTwice;
  return {
    hangingGrams,
    takeHomeGrams: takeHome,
    parts: twice ? {} : { wholeCuts, trim, fatSaved, bone, sinew, damage },
    group,
  };
}

type Tendency = Record<
  Split,
  { effect: (kind: readonly string[], species: string) => number; spreadOf: (species: string) => number }
>;

/** Names of the columns that apply to a kind of animal. */
function columnsOfKind(family: string, group: Required<Group>): string[] {
  const { species, brought, sex, age, damage } = group;
  return Object.entries({ shop: '', family, species, brought, sex, age, damage }).map(
    ([kind, level]) => `${kind}:${level}`,
  );
}

/** One effect of a shop in standard deviations: its own, or in part its owner's. */
function drawnFor(
  owner: Owner | undefined,
  chance: RandomGenerator,
  pool: string,
  split: Split,
  column: string,
): number {
  const own = chance.normal();
  if (!owner) return own;
  return Math.sqrt(owner.alike) * owner.shared(pool, split, column) + Math.sqrt(1 - owner.alike) * own;
}

/** Draws one shop's true effects and spreads. */
function tendency(
  world: World,
  chance: RandomGenerator,
  off: OffPrior | undefined,
  draw: (split: Split, column: string) => number,
): Tendency {
  const entries = SPLITS.map((split) => {
    // Chance's own spread about the believed one: scaled inverse chi-square with 10 degrees, mean 1.
    const spread = Math.sqrt(8 / (2 * chance.gamma(5)));
    const worth = new Map(profiles.map((p) => [p.code, splitPriors(p, 'carcass')[split].animals]));
    const columns = columnsOf(split, profiles, (code) => worth.get(code) as number);
    const drawn = new Map(
      columns.map(({ name, priorMean, variance }) => [
        name,
        priorMean + world.effects * spread * Math.sqrt(variance) * draw(split, name),
      ]),
    );
    const own = new Map(
      profiles.map(({ code }) => [code, spread * world.uneven ** (2 * chance.uniform() - 1)]),
    );
    const sign = off && chance.uniform() < 0.5 ? -1 : 1;
    if (off?.by === 'species') own.set(off.level, spread * off.spread);
    const offColumn = off && `${off.by}:${off.level}`;
    const effect = (kind: readonly string[], species: string): number =>
      kind.reduce(
        (total, name) =>
          total +
          (name === offColumn
            ? (sign * off!.sds) / withinShopFactor(worth.get(species) as number)
            : (drawn.get(name) as number)),
        0,
      );
    return [split, { effect, spreadOf: (species: string) => own.get(species) as number }];
  });
  return Object.fromEntries(entries) as Tendency;
}

function deviation({ error }: World, chance: RandomGenerator): number {
  if (error === 'heavy') return chance.studentT(5) / Math.sqrt(5 / 3);
  if (error === 'skewed') return (4 - chance.gamma(4)) / 2;
  return chance.normal();
}
