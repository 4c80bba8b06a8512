/**
 * Made-up shops to try the range of a batch's yield on. The first world is the one that the model believes in; the others break one of its
 * beliefs.
 */
import kindsJson from '../../resources/loss-assumptions.json' with { type: 'json' };
import { priorOf, type LossKind } from '../../src/core/loss/kind.ts';
import type { LossBatch } from '../../src/core/loss/loss.ts';
import type { RandomGenerator } from '../../src/core/stats/random.ts';
import { inverseLogit } from '../../src/core/yield/tree.ts';

export const KINDS = kindsJson as readonly LossKind[];

export interface LossWorld {
  readonly name: string;
  /** SD from batch to batch as a multiple of the assumed one; drawn from 0.5 to 2 where it is left out. */
  readonly spread?: number;
  /** How many SDs of its kind each product's mean is off; drawn where it is left out. */
  readonly meanOff?: number;
  readonly error: 'normal' | 'gamma';
  /** Share of the variance between products that a shop's products share. */
  readonly shopShare: number;
  /** One batch in so many is odd: three times as far off. */
  readonly oddOneIn?: number;
}

const BELIEVED: LossWorld = { name: 'as the model believes', error: 'normal', shopShare: 0.3 };
export const LOSS_WORLDS: readonly LossWorld[] = [
  BELIEVED,
  { ...BELIEVED, name: 'batches half as far apart', spread: 0.5 },
  { ...BELIEVED, name: 'batches twice as far apart', spread: 2 },
  { ...BELIEVED, name: 'skewed batches (gamma)', error: 'gamma' },
  { ...BELIEVED, name: 'means 2 SDs up', meanOff: 2 },
  { ...BELIEVED, name: 'means 2 SDs down', meanOff: -2 },
  { ...BELIEVED, name: 'products share nothing', shopShare: 0 },
  { ...BELIEVED, name: 'products share most', shopShare: 0.8 },
  { ...BELIEVED, name: 'one batch in 20 odd', oddOneIn: 20 },
];

/** Products of a shop, one of each of these kinds; the first is the one that is predicted. */
const PRODUCTS = ['sticks', 'jerky', 'cooked', 'whole'] as const;
export const PREDICTED = PRODUCTS[0];

/** What the shops of one owner have in common: the share of each variance, and the owner's part in standard deviations. */
export interface LossOwner {
  readonly alike: number;
  shared(name: string): number;
}

/** A shop of a world: the next batch of a product, by its number. */
export function openLossShop(
  world: LossWorld,
  chance: RandomGenerator,
  owner?: LossOwner,
): (product: number) => LossBatch {
  const drawn = (name: string): number => {
    const own = chance.normal();
    return owner ? Math.sqrt(owner.alike) * owner.shared(name) + Math.sqrt(1 - owner.alike) * own : own;
  };
  const shop = drawn('hand') * Math.sqrt(world.shopShare);
  const products = PRODUCTS.map((code) => {
    const kind = KINDS.find((one) => one.code === code);
    if (!kind) throw new Error(code);
    const { location, scale, batchSd } = priorOf(kind);
    const off = world.meanOff ?? shop + drawn(code) * Math.sqrt(1 - world.shopShare);
    const spread = world.spread ?? 0.5 * 4 ** chance.uniform();
    return { code, mean: location + scale * off, sd: batchSd * spread };
  });
  return (number) => {
    const { code, mean, sd } = products[number] ?? products[0]!;
    // Shape 4: skewness 1.
    const error = world.error === 'gamma' ? (chance.gamma(4) - 4) / 2 : chance.normal();
    const odd = world.oddOneIn !== undefined && chance.uniform() < 1 / world.oddOneIn ? 3 : 1;
    const share = inverseLogit(mean + sd * error * odd);
    const inGrams = 20_000 + 60_000 * chance.uniform();
    return { product: code, kind: code, inGrams, outGrams: inGrams * share };
  };
}
