/** Chances of a count: the k-th entry of a list is the chance of k. */
import { ValidationError } from '../values/validation-error.ts';

export type Chances = readonly number[];

/** What is less likely than this is left out. */
const CRUMB = 1e-10;

/**
 * Chances of a count with this mean and a variance of `spread` times the mean: the negative binomial with r = mean /
 * (spread − 1) and p = 1 / spread, at spread 1 Poisson's, both by the ratio of one chance to the next.
 * @param spread 1 or more
 * @throws ValidationError `amount.negative`, `spread.below-one`
 * @example countChances(0.5, 1)[0] // 0.6065306597 = e^-0.5
 */
export function countChances(mean: number, spread: number): Chances {
  if (!(mean >= 0 && Number.isFinite(mean))) throw new ValidationError('amount.negative', 'mean');
  if (!(spread >= 1 && Number.isFinite(spread))) throw new ValidationError('spread.below-one', 'spread');
  if (mean === 0) return [1];
  const r = mean / (spread - 1);
  const ratio = (k: number): number =>
    spread === 1 ? mean / (k + 1) : ((k + r) / (k + 1)) * (1 - 1 / spread);
  // As logarithms, since the chance of none may be too small to be written.
  const logs = [spread === 1 ? -mean : -r * Math.log(spread)];
  for (let k = 0; k < mean || (logs[k] as number) > Math.log(CRUMB); k++)
    logs.push((logs[k] as number) + Math.log(ratio(k)));
  return whole(logs.map(Math.exp));
}

/** Chances of the sum of two counts that are independent. */
export function added(a: Chances, b: Chances): Chances {
  const sums = new Array<number>(a.length + b.length - 1).fill(0);
  const least = leastWorth(b);
  for (let i = leastWorth(a); i < a.length; i++) {
    const chance = a[i] as number;
    if (chance > CRUMB) for (let k = least; k < b.length; k++) sums[i + k]! += chance * (b[k] as number);
  }
  return trimmed(sums);
}

/** Chances of what is left of a count when another, independent of it, is taken away: never less than none. */
export function takenAway(from: Chances, away: Chances): Chances {
  const rests = new Array<number>(from.length).fill(0);
  const least = leastWorth(away);
  // What takes all or more leaves none, so only what takes less is gone through one by one.
  const orMore = [...away, 0];
  for (let k = away.length - 1; k >= 0; k--) orMore[k]! += orMore[k + 1] as number;
  for (let i = leastWorth(from); i < from.length; i++) {
    const chance = from[i] as number;
    if (chance <= CRUMB) continue;
    const end = Math.min(i, away.length);
    for (let k = least; k < end; k++) rests[i - k]! += chance * (away[k] as number);
    rests[0]! += chance * (orMore[end] as number);
  }
  return trimmed(rests);
}

/** The first count that is not as good as impossible: a count of hundreds is hardly ever one of a few. */
function leastWorth(chances: Chances): number {
  return Math.max(
    0,
    chances.findIndex((chance) => chance > CRUMB),
  );
}

/** Chances of a count that is one of several kinds, each with its own weight; the weights sum to 1. */
export function mixed(kinds: readonly { weight: number; chances: Chances }[]): Chances {
  const all = new Array<number>(Math.max(...kinds.map(({ chances }) => chances.length))).fill(0);
  for (const { weight, chances } of kinds) chances.forEach((chance, k) => (all[k]! += weight * chance));
  return all;
}

export function meanCount(chances: Chances): number {
  return chances.reduce((total, chance, k) => total + chance * k, 0);
}

/** The least count that with at least this chance is not exceeded. @example countBelow([0.5, 0.3, 0.2], 0.8) // 1 */
export function countBelow(chances: Chances, chance: number): number {
  let sum = 0;
  const found = chances.findIndex((one) => (sum += one) >= chance - 1e-9);
  return found < 0 ? chances.length - 1 : found;
}

function trimmed(chances: number[]): Chances {
  while (chances.length > 1 && (chances.at(-1) as number) < CRUMB) chances.pop();
  return whole(chances);
}

function whole(chances: number[]): Chances {
  let sum = 0;
  for (const one of chances) sum += one;
  for (let k = 0; k < chances.length; k++) chances[k]! /= sum;
  return chances;
}
