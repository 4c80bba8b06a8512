/** Composition of made products held against rules and recipes of others. */
import rulesJson from '../../../resources/composition-rules.json' with { type: 'json' };
import { blockFat } from '../../../src/core/curing/block-fat.ts';
import { casingGrams } from '../../../src/core/curing/casing.ts';
import {
  addedWater, mostWater, proteinFatFree, shareOfMeat, yieldAtRatio,
} from '../../../src/core/curing/composition.ts'; // prettier-ignore
import { saltGramsIn } from '../../../src/core/curing/mix.ts';
import { pffRule, standardFindings, type CompositionRule } from '../../../src/core/curing/standards.ts';
import { toGrams } from '../../../src/core/values/units.ts';
import type { PublishedResult } from '../result.ts';

const RULES = rulesJson as readonly CompositionRule[];
const HAMS = [{ protein: 0.18, fat: 0.04 }, { protein: 0.175, fat: 0.05 }, { protein: 0.198, fat: 0.03 }]; // prettier-ignore
const NAMES = ['ham-plain', 'ham-juices', 'ham-water'];
const oz = (ounces: number): number => toGrams(ounces, 'oz');
const lb = (pounds: number): number => toGrams(pounds, 'lb');
const PINK = { id: 'pink', nitrite: 0.0625, nitrate: 0, accelerator: 0 };

const bologna = (fat: number): number =>
  standardFindings('cooked-sausage', { fat, water: addedWater({ moisture: 0.58, protein: 0.12 }) }, RULES)
    .length;

/** Pork trim at half fat in 25 lb (10 lb) and in 45 lb (25 lb), the game taken as without fat. */
const trimFat = (pork: number, game: number): number =>
  blockFat(
    [{ id: 'pork', fat: 0.5, grams: lb(pork) }, { id: 'game', fat: 0, grams: lb(game) }],
    { addedGrams: 0 },
  ).block.fat; // prettier-ignore

export const compositions: readonly PublishedResult[] = [
  {
    name: 'three hams (18.0/4.0, 17.5/5, 19.8/3 % protein/fat): protein-fat-free, and which name it allows',
    source: '9 CFR 319.104, cured pork products (2007 edition)',
    basis: 'computed',
    note: 'names: 0 plain, 1 with natural juices, 2 water added',
    expected: [18.75, 18.42, 20.41, 1, 2, 1],
    ours: () => {
      const shares = HAMS.map(proteinFatFree);
      const names = shares.map((pff) => NAMES.indexOf(pffRule('cooked-ham', pff, RULES)?.code ?? ''));
      return [...shares.map((pff) => 100 * pff), ...names];
    },
    near: { within: 0.005 },
    mistake: { what: 'protein taken on the whole product', gives: [18, 17.5, 19.8, 2, 2, 1] },
  },
  {
    name: 'bologna of 58 % moisture and 12 % protein: percent water added; findings at 30 and at 31 % fat',
    source: '9 CFR 319.181, 30 percent fat and 40 percent fat and added water',
    basis: 'computed',
    note: 'moisture less four times protein, completed from memory; at 31 % both rules are broken',
    expected: [10, 0, 2],
    ours: () => [100 * addedWater({ moisture: 0.58, protein: 0.12 }), bologna(0.3), bologna(0.31)],
    near: { within: 1e-9 },
    mistake: { what: 'a limit of below 40 instead of up to 40', gives: [10, 1, 2] },
  },
  {
    name: 'water to 97 lb of meat and seasoning, fresh sausage: pounds',
    source: '9 CFR 319.141, water or ice up to 3 percent of the total ingredients',
    basis: 'computed',
    expected: 3,
    ours: () => mostWater(97, RULES.find(({ code }) => code === 'uncooked-water')?.share ?? NaN),
    near: { digits: 9 },
    mistake: { what: '3 percent of the meat', gives: 2.91 },
  },
  {
    name: 'jerky of lean with 72 % moisture and 22 % protein to a ratio of 0.75: percent left',
    source: 'moisture-protein ratio of jerky, 0.75, FSIS jerky compliance guideline, February 2004',
    basis: 'computed',
    note: 'before salt and sugar; trade claims run from a third to a half',
    expected: 44.5,
    ours: () => 100 * yieldAtRatio({ moisture: 0.72, protein: 0.22 }, 0.75),
    near: { digits: 9 },
    mistake: { what: 'the ratio taken for the moisture that stays', gives: 100 - 72 + 75 * 0.72 },
  },
  {
    name: 'salt of a sausage without and with the cure’s, water of the second, added fat of both: percent',
    source: 'North Dakota State University Extension, game sausage recipes: salt, water and trim of the same page',
    basis: 'computed',
    note: '7 oz of salt and 1 oz of cure on 25 lb; a quart of 2.09 lb in 48.3 lb; trim taken as half fat',
    expected: [1.75, 1.984, 4.327, 20, 27.78],
    ours: () => [
      100 * shareOfMeat(oz(7), lb(25)),
      100 * shareOfMeat(oz(7) + saltGramsIn(PINK, oz(1)), lb(25)),
      100 * shareOfMeat(2.09, 48.3),
      100 * trimFat(10, 15),
      100 * trimFat(25, 20),
    ],
    near: { within: 0.005 },
    mistake: { what: 'the whole of the cure counted as salt', gives: [1.75, 2, 4.327, 20, 27.78] },
  },
  {
    name: 'a collagen casing of 45 mm × 18 in: pounds',
    source: 'haxide.com (seller): 1.5 lb each, 100 to 150 lb',
    basis: 'stated',
    note: 'by the cylinder, an inch tied off at each end, 1.05 g in a cubic centimeter',
    expected: 1.5,
    ours: () => casingGrams({ name: 'collagen', diameterMm: 45, filledMm: 16 * 25.4 }) / lb(1),
    near: { within: 0.05 },
    mistake: { what: 'the whole length filled', gives: 1.683 },
  },
]; // prettier-ignore
