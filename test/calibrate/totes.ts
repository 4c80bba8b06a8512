/**
 * The yield ranges in the shops that `npm run slips` makes up: damage zero or gamma, parts that move together, odd animals,
 * readings in half pounds, a hook scale that is 1 % off, totes that were never weighed.
 */
import { learn, predict, type Part, type YieldObservation } from '../../src/core/yield/yield.ts';
import { LEVELS } from './coverage.ts';
import { profiles } from './world.ts';
import { draw, openShop, weighed, type Animal, type Shop, type Weighed } from '../slips/world.ts';

const MISSING = [0, 0.2, 0.6];
const TAUGHT = [0, 20, 150];
const COUNTED = ['takeHome', 'bone', 'sinew', 'damage'] as const satisfies readonly Part[];
const POUND = 453.59237;
const DRAWS = 199;
const PART_OF: Readonly<Record<string, 'wholeCuts' | 'trim' | 'fatSaved' | 'sinew' | 'bone' | 'damage'>> = {
  'whole cuts': 'wholeCuts',
  trim: 'trim',
  'fat saved': 'fatSaved',
  sinew: 'sinew',
  bone: 'bone',
  damage: 'damage',
};

/** One row for each kind of shop and count of animals: how often the ranges of the four parts held one more animal. */
export function totesTable(
  shops: number,
  mark: (share: number, level: number) => string,
): { titles: string[]; rows: string[][] } {
  const titles = [
    'miss a tote',
    'weighed',
    ...COUNTED.flatMap((part) => LEVELS.map((level) => `${part} ${100 * level}`)),
  ];
  const rows = MISSING.flatMap((missing) =>
    TAUGHT.map((taught) => {
      const { inside } = totesHeld(missing, taught, shops);
      const cells = COUNTED.flatMap((part) => inside[part].map((share, i) => mark(share, LEVELS[i] ?? 0)));
      return [`${100 * missing} %`, String(taught), ...cells];
    }),
  );
  return { titles, rows };
}

/** Shares of shops whose next animal the ranges held, by part and level, where so many animals miss a tote. */
export function totesHeld(
  missing: number,
  taught: number,
  shops: number,
): { inside: Record<(typeof COUNTED)[number], number[]> } {
  const inside = COUNTED.map(() => LEVELS.map(() => 0));
  for (let number = 0; number < shops; number++) countOne(missing, taught, number, inside);
  const shares = COUNTED.map((part, at) => [part, inside[at]?.map((count) => count / shops)]);
  return { inside: Object.fromEntries(shares) as Record<(typeof COUNTED)[number], number[]> };
}

function countOne(missing: number, taught: number, seed: number, inside: number[][]): void {
  const { shop, chance } = openShop(missing, 7_000_003 * (1 + taught) + seed);
  const seen = Array.from({ length: taught }, () =>
    observed(shop, weighed(shop, draw(shop, chance), chance)),
  );
  const model = learn(profiles, seen);
  const animal = draw(shop, chance);
  const hangingGrams = animal.hangingLb * shop.hookScale * POUND;
  for (const [i, level] of LEVELS.entries()) {
    const { parts } = predict(model, { hangingGrams, group: groupOf(shop), level, seed, draws: DRAWS });
    for (const [at, part] of COUNTED.entries()) {
      const grams = partOf(animal, part) * POUND;
      const counts = inside[at] as number[];
      if (grams >= parts[part].low && grams <= parts[part].high) counts[i] = (counts[i] ?? 0) + 1;
    }
  }
}

function partOf({ parts }: Animal, part: (typeof COUNTED)[number]): number {
  return part === 'takeHome' ? parts.meat + parts.fatSaved : parts[part];
}

const groupOf = ({ species }: Shop) =>
  ({ species: species.code, brought: 'skinned', sex: 'male', age: 'adult' }) as const;

/** What the book holds of it: a part without a tote is left out, one that was stated to be none is 0. */
function observed(shop: Shop, { hangingLb, totes, saysNoDamage }: Weighed): YieldObservation {
  const parts: Partial<Record<'wholeCuts' | 'trim' | 'fatSaved' | 'sinew' | 'bone' | 'damage', number>> =
    saysNoDamage ? { damage: 0 } : {};
  for (const { part, lb } of totes) {
    const name = PART_OF[part];
    if (name) parts[name] = (parts[name] ?? 0) + lb * POUND;
  }
  const { wholeCuts = 0, trim = 0, fatSaved = 0 } = parts;
  return {
    hangingGrams: hangingLb * POUND,
    takeHomeGrams: wholeCuts + trim + fatSaved,
    parts,
    group: groupOf(shop),
  };
}
