/** A new shop of an owner with other shops: the fat of its batches and what its cooked products keep, as `owners.ts` for yields. */
import type { FatLesson } from '../../src/core/fat/siblings.ts';
import { learnLoss, yieldLogit, type LossBatch } from '../../src/core/loss/loss.ts';
import type { LossLesson } from '../../src/core/loss/siblings.ts';
import { normalQuantile } from '../../src/core/stats/distributions.ts';
import { seededRandom, type RandomGenerator } from '../../src/core/stats/random.ts';
import { mixtureOf } from '../../src/desk/learning/fat-estimates.ts';
import { BATCH_WORLDS, openShop, weighedAs } from './batch-world.ts';
import { KINDS, LOSS_WORLDS, openLossShop, PREDICTED } from './loss-world.ts';

const LEVEL = 0.8;
export const MADE_STAGES = [0, 1, 5, 20] as const;

export interface MadeHeld {
  /** Batches tested, or made, before. */
  readonly own: number;
  owners: number;
  inside: number;
  width: number;
  aloneInside: number;
  aloneWidth: number;
}

/** The owner's part of each effect, drawn once. */
function sharedBy(chance: RandomGenerator): (name: string) => number {
  const drawn = new Map<string, number>();
  return (name) => {
    const value = drawn.get(name) ?? chance.normal();
    drawn.set(name, value);
    return value;
  };
}

const nothing = (own: number, owners: number): MadeHeld => ({ own, owners, inside: 0, width: 0, aloneInside: 0, aloneWidth: 0 }); // prettier-ignore
type Range = { low: number; high: number };

function count(held: MadeHeld, value: number, among: Range, alone: Range): void {
  const holds = ({ low, high }: Range): number => (low <= value && value <= high ? 1 : 0);
  held.inside += holds(among);
  held.width += among.high - among.low;
  held.aloneInside += holds(alone);
  held.aloneWidth += alone.high - alone.low;
}

/** The next batch of a product; siblings have made 10 to 60 batches of each of four. */
export function lossOwnersHeld(alike: number, shops: number, owners: number, seed: number): MadeHeld[] {
  const held = MADE_STAGES.map((own) => nothing(own, owners));
  const [world] = LOSS_WORLDS;
  if (!world) throw new Error('no world');
  for (let i = 0; i < owners; i++) {
    const chance = seededRandom(seed * 1_000_003 + i);
    const owner = { alike, shared: sharedBy(chance) };
    const siblings = Array.from({ length: shops - 1 }, () => {
      const next = openLossShop(world, chance, owner);
      const each = 10 + Math.floor(50 * chance.uniform());
      return [0, 1, 2, 3].map((product) => lossLessonOf(Array.from({ length: each }, () => next(product))));
    });
    const next = openLossShop(world, chance, owner);
    const seen: LossBatch[] = [];
    for (const stage of held) {
      while (seen.length < stage.own) seen.push(next(0));
      const { inGrams, outGrams } = next(0);
      const forecast = (shopsTold: typeof siblings) => learnLoss(seen, KINDS, shopsTold).forecast(PREDICTED, PREDICTED, LEVEL);
      count(stage, outGrams / inGrams, forecast(siblings), forecast([]));
    }
  }
  return held;
} // prettier-ignore

export function lossLessonOf(batches: readonly LossBatch[]): LossLesson {
  const ys = batches.map((batch) => yieldLogit(batch, 'batch'));
  return {
    kind: batches[0]?.kind ?? '',
    n: ys.length,
    sum: ys.reduce((sum, y) => sum + y, 0),
    squares: ys.reduce((sum, y) => sum + y * y, 0),
  };
}

/** The fat of a batch of four animals; siblings have tested 10 to 60 batches. */
export function fatOwnersHeld(alike: number, shops: number, owners: number, seed: number): MadeHeld[] {
  const held = MADE_STAGES.map((own) => nothing(own, owners));
  const [world] = BATCH_WORLDS;
  if (!world) throw new Error('no world');
  const reach = normalQuantile((1 + LEVEL) / 2);
  for (let i = 0; i < owners; i++) {
    const chance = seededRandom(seed * 1_000_003 + i);
    const shared = sharedBy(chance);
    const taught = Array.from({ length: shops - 1 }, () => {
      const shop = openShop(world, chance, { alike, shared, taught: [] });
      const tests = 10 + Math.floor(50 * chance.uniform());
      for (let n = 0; n < tests; n++) shop.testOne();
      return shop.lesson();
    }).filter((lesson): lesson is FatLesson => lesson !== null);
    // The same shop twice, by the same draws: once taught, once not.
    const own = Math.floor(1e9 * chance.uniform());
    const twins = [taught, []].map((lessons) => openShop(world, seededRandom(own), { alike, shared, taught: lessons }));
    let tested = 0;
    for (const stage of held) {
      for (; tested < stage.own; tested++) for (const shop of twins) shop.testOne();
      const ranges = twins.map((shop) => {
        const batch = shop.fill([0, 0, 0, 0]);
        const guess = mixtureOf(shop.believed(), batch.parts.map(weighedAs));
        if (!guess) throw new Error('an empty batch');
        return { low: guess.mean - reach * guess.sd - batch.fat, high: guess.mean + reach * guess.sd - batch.fat };
      });
      const [among, alone] = ranges;
      // Each range about its own batch's fat: the two fill up with fat by what each believes.
      if (among && alone) count(stage, 0, among, alone);
    }
  }
  return held;
} // prettier-ignore
