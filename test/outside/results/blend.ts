/** Blends held against published examples; each by the two-part balance (Pearson square) and by the planner. */
import { fatToAdd, planBlend } from '../../../src/core/blend/blend.ts';
import type { PublishedResult } from '../result.ts';
import { gramsBySimplex } from './simplex.ts';

const POUND = 453.59237;

interface Meat {
  fat: number;
  dollars: number;
}

/** Pounds of the fatter part that bring the leaner to the target, by the balance. */
function fatPounds(leanPounds: number, leanFat: number, fatFat: number, targetFat: number): number {
  const answer = fatToAdd({ leanGrams: leanPounds * POUND, leanFat, fatFat, targetFat });
  return answer.kind === 'add' ? answer.grams / POUND : NaN;
}

/** The cheapest batch of these meats, plenty of each: dollars in all, and pounds of each. */
async function cheapest(
  meats: readonly Meat[],
  pounds: number,
  target: number,
): Promise<{ dollars: number; pounds: number[] }> {
  const answer = await planBlend({
    sources: meats.map(({ fat, dollars }, i) => ({
      id: `${i}`,
      fat,
      availableGrams: 1000 * POUND,
      costPerKg: (dollars * 1000) / POUND,
    })),
    batchGrams: pounds * POUND,
    fat: { min: target, max: target },
  });
  if (answer.kind !== 'plan') return { dollars: NaN, pounds: [] };
  return { dollars: answer.cost, pounds: answer.parts.map(({ grams }) => grams / POUND) };
}

const FIFTY = { fat: 0.5, dollars: 1.89 };
const FORTY = { fat: 0.6, dollars: 1.69 };
const THIRTY = { fat: 0.7, dollars: 1.56 };
const HAM = { fat: 0.2, dollars: 2.45 };
const SHOULDER = { fat: 0.23, dollars: 1.78 };
const PAIRS = [[FIFTY, HAM], [FIFTY, SHOULDER], [FORTY, SHOULDER], [FORTY, HAM], [THIRTY, HAM], [THIRTY, SHOULDER]] as const; // prettier-ignore
const PRINTED = [2.3, 1.8, 1.77, 2.3, 2.31, 1.76];
const cents = (dollars: number): number => Math.round(dollars * 100) / 100;

function bySquare([fatter, leaner]: readonly [Meat, Meat]): number {
  const toOne = fatPounds(1, leaner.fat, fatter.fat, 0.28);
  return cents((toOne * fatter.dollars + leaner.dollars) / (toOne + 1));
}

/** USDA National Nutrient Database for Standard Reference, release 26 (2013): g of fat in 100 g. */
const LEANS = [2.42, 1.45, 0.74, 3.36, 2.03, 3.33, 8.3, 1.84];
const FATS = [88.69, 65.7, 53.01, 69.61, 94.16, 94, 70.89];
const USDA_PAIRS = LEANS.flatMap((lean) =>
  FATS.flatMap((fat) => [10, 15, 30].map((target) => [lean, fat, target] as const)),
);

async function bothWays([lean, fat, target]: readonly [number, number, number]): Promise<number[]> {
  const shares = [lean, fat, target].map((percent) => percent / 100) as [number, number, number];
  const square = fatToAdd({ leanGrams: 100, leanFat: shares[0], fatFat: shares[1], targetFat: shares[2] });
  const plan = await planBlend({
    sources: [
      { id: 'lean', fat: shares[0], availableGrams: 100, costPerKg: 0, useAll: true },
      { id: 'fat', fat: shares[1], availableGrams: 1000, costPerKg: 300 },
    ],
    fat: { min: shares[2], max: 1 },
  });
  return [
    square.kind === 'add' ? square.grams : NaN,
    plan.kind === 'plan' ? (plan.parts[1]?.grams ?? NaN) : NaN,
  ];
}

export const blends: readonly PublishedResult[] = [
  {
    name: '500 lb of pan sausage at 28 %: dollars a pound of six pairs (by the square, by the planner), cheapest of five meats',
    source:
      'Georgia FFA Association, State Meat Formulation Problem 2016, printed options, https://studylib.net/doc/25302172/23862-meats-cde-problem-solving-2016-state',
    basis: 'stated',
    expected: [...PRINTED, ...PRINTED, 1.76],
    ours: async () => [
      ...PAIRS.map(bySquare),
      ...(await Promise.all(PAIRS.map(async (pair) => cents((await cheapest(pair, 500, 0.28)).dollars / 500)))),
      cents((await cheapest([FIFTY, FORTY, THIRTY, HAM, SHOULDER], 500, 0.28)).dollars / 500),
    ],
    near: { within: 1e-9 },
    mistake: {
      what: '28 % of the fatter meat put in, instead of 28 % of fat reached',
      gives: [...PAIRS, ...PAIRS, PAIRS[5]].map(([fatter, leaner]) => cents(0.28 * fatter.dollars + 0.72 * leaner.dollars)),
    },
  },
  {
    name: '1,000 lb of ground beef at 20 % of 10 % cow meat and 25 % trim: lb of each, dollars a pound',
    source: '"Meat Calculations" teaching slides, example 1, https://slideplayer.com/slide/7660647',
    basis: 'computed',
    note: 'the slides leave the answer to the class',
    expected: [1000 / 3, 2000 / 3, 2.57 / 3, 2000 / 3],
    ours: async () => {
      const plan = await cheapest([{ fat: 0.1, dollars: 0.99 }, { fat: 0.25, dollars: 0.79 }], 1000, 0.2); // prettier-ignore
      return [...plan.pounds, plan.dollars / 1000, fatPounds(1000 / 3, 0.1, 0.25, 0.2)];
    },
    near: { digits: 9 },
    mistake: { what: 'the two shares of the square exchanged', gives: [2000 / 3, 1000 / 3, 2.77 / 3, 2000 / 3] },
  },
  {
    name: 'Pearson square, 8.9 % corn and 45.8 % soybean meal to 15 %: parts of corn to 6.1 of meal',
    source: 'study guide to the Praxis Agriculture examination (5701), Pearson’s square, praxisagriculture.passetra.com',
    basis: 'stated',
    note: 'protein in place of fat: the same balance',
    expected: 30.8,
    ours: () => 6.1 / fatPounds(1, 0.089, 0.458, 0.15),
    near: { digits: 12 },
    mistake: { what: 'the added part left out of the batch', gives: 6.1 / ((0.15 - 0.089) / 0.458) },
  },
  {
    name: `g of fat to 100 g of lean for 10, 15 and 30 %, ${LEANS.length} kinds of game with ${FATS.length} fats, by square and by planner`,
    source: 'USDA National Nutrient Database for Standard Reference, release 26 (2013): the fats of both',
    basis: 'computed',
    note: 'answers by javascript-lp-solver, an independent simplex',
    expected: USDA_PAIRS.flatMap(([lean, fat, target]) => {
      const grams = gramsBySimplex(lean, fat, target);
      return [grams, grams];
    }),
    ours: async () => (await Promise.all(USDA_PAIRS.map(bothWays))).flat(),
    near: { digits: 8 },
    mistake: {
      what: 'a hundredth of a percent off in one fat',
      gives: USDA_PAIRS.flatMap(([lean, fat, target]) => {
        const grams = (100 * (target - lean)) / (fat + 0.01 - target);
        return [grams, grams];
      }),
    },
  },
]; // prettier-ignore
