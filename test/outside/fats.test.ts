/**
 * The fat figures that the tool ships, against the same figures typed in again from the USDA table; and blends made
 * from the shipped figures, computed by the balance, by the solver and by an independent simplex.
 */
import solver from 'javascript-lp-solver';
import { describe, it } from 'vitest';
import fats from '../../resources/fats.json' with { type: 'json' };
import species from '../../resources/species.json' with { type: 'json' };
import { fatToAdd, planBlend } from '../../src/core/blend.ts';
import { check } from './record.ts';

const USDA = 'USDA National Nutrient Database for Standard Reference, release 26 (2013)';
const PROXY = 'a stand-in: no published figure for the body fat of game was found';
const LABEL = 'common practice, no source: the lean/fat label of the trade, fat = 100 less the lean';

/** NDB number and g of fat in 100 g. */
const FATS: [code: string, ndb: number | null, fat: number, note?: string][] = [
  ['pork-back-fat', 10004, 88.69],
  ['pork-fat', 10006, 65.7],
  ['pork-belly', 10005, 53.01],
  ['pork-jowl', 10105, 69.61],
  ['pork-leaf-fat', 10109, 94.16],
  ['pork-ground-84', 10972, 16],
  ['beef-suet', 13335, 94],
  ['beef-fat', 13019, 70.89],
  ['beef-ground-80', 23572, 20],
  ['own-fat', 13019, 70.89, PROXY],
  ['own-fat-boar', 10006, 65.7, PROXY],
  ['pork-trim-50', null, 50],
  ['pork-trim-72', null, 28],
  ['beef-trim-50', null, 50],
];

const GAME: [code: string, ndb: number, fat: number][] = [
  ['white-tail', 17343, 7.13],
  ['mule-deer', 17343, 7.13],
  ['elk', 17338, 8.82],
  ['moose', 17172, 0.74],
  ['caribou', 17162, 3.36],
  ['pronghorn', 17144, 2.03],
  ['wild-boar', 17158, 3.33],
  ['black-bear', 17146, 8.3],
  ['bison', 17156, 1.84],
];

const fatOf = (code: string): number => fats.find((one) => one.code === code)?.fat ?? NaN;
const trimOf = (code: string): number => species.find((one) => one.code === code)?.trimFat.mean ?? NaN;

describe('shipped figures', () => {
  it.each(FATS)('%s', (code, ndb, fat, note) => {
    const source = ndb === null ? LABEL : [USDA, note].filter(Boolean).join('; ');
    const shipped = fats.find((one) => one.code === code);
    const got = [(shipped?.fat ?? NaN) * 100, Number(shipped?.ndb)];
    const name = `shipped fat: ${code}, g per 100 g and NDB number (0: none)`;
    check({ name, source, expected: [fat, ndb ?? 0], got, digits: 12 });
  });

  it('all of them, and no other', () => {
    const name = 'shipped fats: how many of them are checked above';
    check({ name, source: USDA, expected: FATS.length, got: fats.length, tolerance: 0 });
    const known = species.filter(({ trimFat }) => trimFat.ndb !== null);
    const game = 'shipped game: how many with a USDA number are checked';
    check({ name: game, source: USDA, expected: GAME.length, got: known.length, tolerance: 0 });
  });

  it.each(GAME)('trim of %s', (code, ndb, fat) => {
    const trim = species.find((one) => one.code === code)?.trimFat;
    const got = [(trim?.mean ?? NaN) * 100, Number(trim?.ndb)];
    const name = `shipped trim: ${code}, g of fat per 100 g and NDB number`;
    check({ name, source: USDA, expected: [fat, ndb], got, digits: 12 });
  });
});

describe('the shipped figures, blended three ways', () => {
  const bought = FATS.filter(([code, , fat]) => fat > 40 && !code.startsWith('own'));
  const source = `${USDA}; answer: javascript-lp-solver, an independent simplex, on the figures typed in here`;

  it.each(GAME)('%s with every fat in turn to 12.5 %', async (code, _, lean) => {
    const expected = bought.map(([, , fat]) => gramsBySimplex(lean, fat, 12.5));
    const closed = bought.map(([fat]) => {
      const answer = fatToAdd({ leanGrams: 100, leanFat: trimOf(code), fatFat: fatOf(fat), targetFat: 0.125 });
      return answer.kind === 'add' ? answer.grams : NaN;
    });
    const solved = await Promise.all(bought.map(([fat]) => gramsBySolver(trimOf(code), fatOf(fat))));
    const name = `100 g of ${code} to 12.5 %: g of ${bought.length} fats`;
    check({ name: `${name}: balance`, source, expected, got: closed, tolerance: 1e-6 });
    check({ name: `${name}: solver`, source, expected, got: solved, tolerance: 1e-6 });
    check({
      name: `${name}: solver against balance`,
      source: 'closed form: lean × (target − lean fat) / (fat − target)',
      expected: closed,
      got: solved,
      digits: 9,
    });
  });
}); // prettier-ignore

async function gramsBySolver(lean: number, fat: number): Promise<number> {
  const answer = await planBlend({
    sources: [
      { id: 'lean', fat: lean, availableGrams: 100, costPerKg: 0, useAll: true },
      { id: 'fat', fat, availableGrams: 1000, costPerKg: 300 },
    ],
    fat: { min: 0.125, max: 1 },
  });
  return answer.kind === 'plan' ? (answer.parts[1]?.grams ?? NaN) : NaN;
}

function gramsBySimplex(lean: number, fat: number, target: number): number {
  const answer = solver.Solve({
    optimize: 'cost',
    opType: 'min',
    constraints: { lean: { equal: 100 }, above: { min: 0 } },
    variables: {
      lean: { lean: 1, above: lean - target, cost: 0 },
      fat: { above: fat - target, cost: 3 },
    },
  }) as unknown as { feasible: boolean; fat: number };
  return answer.feasible ? answer.fat : NaN;
}
