import { seededRandom } from '../../core/stats/random.ts';
import type { Weighted } from './invention.ts';

/**
 * A random stream for one animal or one kind of event; separate, so that an added animal does not change the
 * others.
 */
export interface Draw {
  /** True with probability `share`. */
  maybe(share: number): boolean;
  between(low: number, high: number): number;
  /** Uniform integer, both ends included. */
  whole(low: number, high: number): number;
  /** Standard normal, truncated: extreme animals would make the demo implausible. */
  normal(): number;
  pick<T>(list: readonly T[]): T;
  pickWeighted<T>(list: readonly Weighted<T>[]): T;
  /** A key of a table of relative frequencies. */
  pickShare<K extends string>(shares: Readonly<Record<K, number>>): K;
}

const FARTHEST = 2.2;

/** Combines two seeds: the multiply-and-shift rounds separate neighbouring ones (constants of MurmurHash3, Appleby). */
function mixed(before: number, seed: number): number {
  let hash = Math.imul(before ^ seed, 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35) + seed;
  return (hash ^ (hash >>> 16)) >>> 0;
}

export function drawing(...seeds: number[]): Draw {
  const chance = seededRandom(seeds.reduce(mixed, 0));
  const draw: Draw = {
    maybe: (share) => chance.uniform() < share,
    between: (low, high) => low + (high - low) * chance.uniform(),
    whole: (low, high) => Math.floor(draw.between(low, high + 1)),
    normal: () => Math.max(-FARTHEST, Math.min(FARTHEST, chance.normal())),
    pick: (list) => draw.pickWeighted(list.map((value) => ({ value, weight: 1 }))),
    pickWeighted(list) {
      let left = chance.uniform() * list.reduce((total, { weight }) => total + weight, 0);
      const found = list.find(({ weight }) => (left -= weight) <= 0) ?? list.at(-1);
      if (!found) throw new RangeError('nothing to draw from');
      return found.value;
    },
    pickShare: <K extends string>(shares: Readonly<Record<K, number>>) =>
      draw.pickWeighted(
        (Object.entries(shares) as [K, number][]).map(([value, weight]) => ({ value, weight })),
      ),
  };
  return draw;
}
