/** Counts how often the model's ranges hold an animal that it has not seen, over many made-up shops. */
import { hangingFrom } from '../../src/core/yield/convert.ts';
import { learn, predict, type Part } from '../../src/core/yield/yield.ts';
import { openShop, profiles, weigh, type Animal, type World } from './world.ts';

export const LEVELS = [0.5, 0.8, 0.95] as const;
/** Parts that are counted; the others are sums or differences of these. */
export const COUNTED: readonly Part[] = [
  'takeHome',
  'wholeCuts',
  'trim',
  'fatSaved',
  'bone',
  'sinew',
  'damage',
  'shrink',
];

export interface Coverage {
  shops: number;
  /** Shops whose new animal lay inside, by part and level (in the order of LEVELS). */
  inside: Record<string, number[]>;
}

/**
 * Few are enough for counting: with n draws and plotting positions i / (n + 1), a range holds the next draw with
 * exactly its level on average. A quote uses more, since there one range must be steady.
 */
export const DRAWS = 199;

/**
 * Opens `shops` shops, lets the model learn `weighed` animals of each and predict one more: one animal a shop, so
 * that the counts are independent and binomial bands hold. `forgetConversion` takes a hanging weight guessed from
 * the live one as if it had been weighed, to show what that does. Boned meat has no bone to predict: it is left out there.
 */
export function coverage(
  world: World,
  weighed: number,
  shops: number,
  seed: number,
  { forgetConversion = false } = {},
): Coverage {
  const inside = Object.fromEntries(COUNTED.map((part) => [part, LEVELS.map(() => 0)]));
  for (let shop = 0; shop < shops; shop++) {
    const { next, chance } = openShop(world, seed * 1_000_003 + shop);
    const seen = Array.from({ length: weighed }, () => weigh(next(), world, chance));
    const model = learn(profiles, seen);
    const animal = onTheBone(next);
    for (const [i, level] of LEVELS.entries()) {
      const told = weightTold(world, animal);
      const hangingLogSd = forgetConversion ? 0 : told.hangingLogSd;
      const { parts } = predict(model, { ...told, hangingLogSd, level, seed: shop, draws: DRAWS });
      for (const part of COUNTED) {
        const { low, high } = parts[part];
        const grams = animal.parts[part];
        if (grams >= low && grams <= high) (inside[part] as number[])[i]! += 1;
      }
    }
  }
  return { shops, inside };
}

/** Every third or so shop's next animal would be boned; asking for the next on the bone keeps one count a shop. */
function onTheBone(next: () => Animal): Animal {
  for (;;) {
    const animal = next();
    if (animal.group.brought !== 'boned') return animal;
  }
}

function weightTold(world: World, { group, hangingGrams, liveGrams }: Animal) {
  if (!world.quotedLive) return { hangingGrams, hangingLogSd: 0, group };
  const profile = profiles.find(({ code }) => code === group.species);
  if (!profile) throw new Error(`no profile for ${group.species}`);
  const guess = hangingFrom({ stage: 'live', grams: liveGrams, profile, level: 0.8 });
  return { hangingGrams: guess.grams, hangingLogSd: guess.logSd, group };
}

/** Half the width of the middle 95 % of a binomial share with n trials (normal approximation). */
export function binomialBand(level: number, n: number): number {
  return 1.96 * Math.sqrt((level * (1 - level)) / n);
}

export { binomialBand as binomialCounts } from '../../src/core/stats/binomial-band.ts';
