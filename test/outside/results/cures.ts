/**
 * Ingoing nitrite held against published results. Regulations are read as copies quote them; sellers and forums count only as
 * somebody else's sums.
 */
import limitsJson from '../../../resources/cure-limits.json' with { type: 'json' };
import { cureFor } from '../../../src/core/curing/amount.ts';
import { checkCure } from '../../../src/core/curing/check.ts';
import { fromPickle } from '../../../src/core/curing/composition.ts';
import { agentGramsFor, ingoingPpm, type Application } from '../../../src/core/curing/ingoing.ts';
import type { CureLimit } from '../../../src/core/curing/limits.ts';
import { agentGramsIn, asPotassium, saltGramsIn, type CureMix } from '../../../src/core/curing/mix.ts';
import { toGrams } from '../../../src/core/values/units.ts';
import type { PublishedResult } from '../result.ts';

const LIMITS = limitsJson as readonly CureLimit[];
const limit = (code: string): number => LIMITS.find((one) => one.code === code)?.ppm ?? NaN;
const mix = (nitrite: number): CureMix => ({ id: 'cure', nitrite, nitrate: 0, accelerator: 0 });

const lb = (pounds: number): number => toGrams(pounds, 'lb');
const oz = (ounces: number): number => toGrams(ounces, 'oz');
const mixedIn = (greenGrams: number): Application => ({ method: 'mixed-in', greenGrams });
const HUNDRED = mixedIn(lb(100));
/** A hundred gallons of pickle, its gallon taken at 10 lb. */
const GALLONS: Application = { method: 'pumped', pickleGrams: lb(1000), pickUp: 0.1 };

/** Ingoing nitrite of so much cure of this strength. */
const byMix = (strength: number, cureGrams: number, application: Application): number =>
  ingoingPpm(agentGramsIn(mix(strength), 'nitrite', cureGrams), application);

/** Water, salt, sugar and cure of one pickle, g. */
const PICKLE = { water: 1000, salt: 110, sugar: 124, cure: 32, strength: 0.0588 };
const PICKLE_GRAMS = PICKLE.water + PICKLE.salt + PICKLE.sugar + PICKLE.cure;
const PUMPED: Application = { method: 'pumped', pickleGrams: PICKLE_GRAMS, pickUp: 0.1 };
const pickleSalt = PICKLE.salt + saltGramsIn(mix(PICKLE.strength), PICKLE.cure);

/** The two recipes of one page: meat and cure; the class is ground. */
const NDSU = [
  { meat: lb(15) + lb(10), cure: oz(1) },
  { meat: lb(25) + lb(20), cure: oz(2) },
] as const;
const flagged = ({ meat, cure }: (typeof NDSU)[number]): number => {
  const { mayStart } = checkCure(
    {
      class: 'ground',
      product: { ground: true, bacon: false, cookedSoon: true, lowHeat: true, keep: 'refrigerated' },
      application: mixedIn(meat),
      cures: [{ mix: mix(0.0625), grams: cure }],
    },
    LIMITS,
  );
  return mayStart ? 0 : 1;
};

export const cures: readonly PublishedResult[] = [
  {
    name: 'limits in ounces and pounds as ppm: nitrite and nitrate, ground, dry and in pickle',
    source: '9 CFR 424.21(c), curing agents, as three copies quote it',
    basis: 'computed',
    note: 'the regulation writes 1/4, 1, 2 3/4, 3 1/2 oz to 100 lb and 2, 7 lb to 100 gal of pickle at 10 percent pump; a gallon taken at 10 lb',
    expected: [156.25, 625, 1718.75, 2187.5, 200, 700],
    ours: () => [
      ...[0.25, 1, 2.75, 3.5].map((ounces) => ingoingPpm(oz(ounces), HUNDRED)),
      ...[2, 7].map((pounds) => ingoingPpm(lb(pounds), GALLONS)),
    ],
    near: { digits: 9 },
    mistake: { what: 'a gallon of pickle taken at the 8.34 lb of water', gives: [156.25, 625, 1718.75, 2187.5, 2 * 0.1 * 1e6 / 834, 7 * 0.1 * 1e6 / 834] },
  },
  {
    name: 'limits that the program ships, as an extension sums them up: whole pieces, sausage, bacon',
    source: 'Michigan State University Extension, Additives have legal limits for use in foods, canr.msu.edu',
    basis: 'stated',
    note: 'ours follow from the ounces of the regulation; the page rounds 156.25',
    expected: [200, 156, 120],
    ours: () => ['nitrite-pickle', 'nitrite-ground', 'nitrite-bacon-pumped'].map(limit),
    near: { within: 0.5 },
    mistake: { what: 'the limit of whole pieces for sausage', gives: [200, 200, 120] },
  },
  {
    name: 'the same nitrite as potassium salt: 100, 120 and 200 ppm of sodium nitrite in bacon',
    source: '9 CFR 424.22(b), bacon, as two copies quote it',
    basis: 'stated',
    note: 'the rule cuts 246.7 off to 246',
    expected: [123, 148, 246],
    ours: () => [100, 120, 200].map(asPotassium),
    near: { within: 0.8 },
    mistake: { what: 'the atomic mass of potassium a unit off in 24', gives: [100, 120, 200].map((ppm) => (ppm * 86.5) / 69) },
  },
  {
    name: '4 oz of a 6.25 % cure on 100 lb, 2.5 g on 1 kg, and the limit beside them',
    source: 'dose printed on packets of cure no. 1 (trade)',
    basis: 'computed',
    note: 'both must pass the limit of 1/4 oz per 100 lb, and would fail one rounded to 156',
    expected: [156.25, 156.25, 156.25],
    ours: () => [byMix(0.0625, oz(4), HUNDRED), byMix(0.0625, 2.5, mixedIn(1000)), limit('nitrite-ground')],
    near: { digits: 9 },
    mistake: { what: 'the limit rounded to 156', gives: [156.25, 156.25, 156] },
  },
  {
    name: 'pure nitrite, 1.0 g and 0.75 g in 5 kg',
    source: 'zanotowane.pl/123/192 (meat technology exercises)',
    basis: 'stated',
    expected: [200, 150],
    ours: () => [1, 0.75].map((nitrite) => ingoingPpm(nitrite, mixedIn(5000))),
    near: { digits: 9 },
    mistake: { what: 'the nitrite added to the base', gives: [1e6 / 5001, 0.75e6 / 5000.75] },
  },
  {
    name: 'two sausages of one page, 1 oz of cure on 25 lb and 2 oz on 45 lb: ppm, dose for the limit (oz), and whether ours stops them',
    source: 'North Dakota State University Extension, game sausage recipes, miv.ext.nodak.edu/agriculture/node/2198',
    basis: 'computed',
    note: 'the cure taken at 6.25 %; the second recipe exceeds the limit as printed',
    expected: [156.25, 173.6111, 1.8, 0, 1],
    ours: () => [
      ...NDSU.map(({ meat, cure }) => byMix(0.0625, cure, mixedIn(meat))),
      cureFor(limit('nitrite-ground'), 'nitrite', mix(0.0625), mixedIn(NDSU[1].meat), oz(0.1)).grams / oz(1),
      ...NDSU.map(flagged),
    ],
    near: { within: [1e-6, 0.0001, 0.001, 0, 0] },
    mistake: { what: 'the second taken on the finished batch of 48.3 lb, and let pass', gives: [156.25, 0.125e6 / (48.3 * 16), 1.8, 0, 0] },
  },
  {
    name: 'pickle of 1,266 g with 32 g of 5.88 % cure at 10 % pump: ppm, percent salt, grams of salt in 1,200 g',
    source: 'worked example of 13 April 2009, forum.sausagemaking.org t=5017, by the method of FSIS Directive 7620.3',
    basis: 'stated',
    expected: [148.6256, 11.068, 13.28],
    ours: () => [
      byMix(PICKLE.strength, PICKLE.cure, PUMPED),
      (100 * pickleSalt) / PICKLE_GRAMS,
      fromPickle(pickleSalt, { pickleGrams: PICKLE_GRAMS, pickUp: 0.1, greenGrams: 1200 }),
    ],
    near: { within: [0.0001, 0.001, 0.005] },
    mistake: { what: 'the cure at 6.25 % whatever its packet says', gives: [(32 * 0.0625 * 0.1e6) / 1266, (100 * (110 + 30)) / 1266, 13.27] },
  },
  {
    name: '50 lb of 0.75 % cure in 462.1875 lb of pickle at 20 % pump; 5 lb of 0.40 % bacon cure rubbed on 100 lb',
    source: 'questions and answers of a seasoning maker, 2006, by way of network-technologies.org',
    basis: 'stated',
    note: 'the first is printed without its decimals',
    expected: [162, 200],
    ours: () => [
      byMix(0.0075, lb(50), { method: 'pumped', pickleGrams: lb(462.1875), pickUp: 0.2 }),
      byMix(0.004, lb(5), { method: 'rubbed', greenGrams: lb(100) }),
    ],
    near: { within: [0.5, 1e-6] },
    mistake: { what: 'the cure left out of the weight of the pickle', gives: [(50 * 0.0075 * 0.2e6) / 412.1875, 200] },
  },
  {
    name: '100 lb of pickle for 120 ppm in bacon at 20 % pump: pounds of nitrite',
    source: 'trade forum citing the handbook of FSIS Directive 7620.3 (second-hand)',
    basis: 'stated',
    expected: 0.06,
    ours: () => agentGramsFor(120, { method: 'pumped', pickleGrams: lb(100), pickUp: 0.2 }) / lb(1),
    near: { digits: 9 },
    mistake: { what: 'the pump left out', gives: 0.012 },
  },
  {
    name: 'one brine, 1.26 g in 600 g on 1,200 g of meat: by 10 % pick-up and to equilibrium',
    source: 'worked example of the two methods, 2009, forum.sausagemaking.org t=5762, after the handbook',
    basis: 'stated',
    expected: [210, 700],
    ours: () => [
      ingoingPpm(1.26, { method: 'immersed', by: 'pick-up', pickleGrams: 600, pickUp: 0.1 }),
      ingoingPpm(1.26, { method: 'immersed', by: 'equilibrium', pickleGrams: 600, greenGrams: 1200 }),
    ],
    near: { digits: 9 },
    mistake: { what: 'equilibrium over the meat alone', gives: [210, 1050] },
  },
  {
    name: '8 lb of brisket in 31.71 lb of brine to equilibrium at 150 ppm: pounds of nitrite and of cure',
    source: 'equilibrium example, network-technologies.org (hobby)',
    basis: 'stated',
    expected: [0.0059565, 0.0953],
    ours: () => {
      const brine: Application = { method: 'immersed', by: 'equilibrium', pickleGrams: lb(31.71), greenGrams: lb(8) };
      return [agentGramsFor(150, brine) / lb(1), cureFor(150, 'nitrite', mix(0.0625), brine, 0.01).grams / lb(1)];
    },
    near: { within: [1e-7, 0.00005] },
    mistake: { what: 'the brine alone as the base', gives: [(150 * 31.71) / 1e6, (150 * 31.71) / 62500] },
  },
  {
    name: '0.70 g of cure on 454 g of meat, dry',
    source: 'forum.sausagemaking.org p=16070, by the handbook’s page 15',
    basis: 'stated',
    note: 'printed without its decimals; below the 120 ppm of a refrigerated product',
    expected: 96,
    ours: () => byMix(0.0625, 0.7, { method: 'rubbed', greenGrams: 454 }),
    near: { within: 0.5 },
    mistake: { what: '453.6 g of meat and 0.71 g of cure', gives: (0.71 * 0.0625e6) / 453.6 },
  },
  {
    name: '4 oz of a mix of 1 oz nitrite and 16 oz salt on 100 lb',
    source: 'mixing ratio of a cure, one to sixteen (trade)',
    basis: 'computed',
    expected: 147.0588,
    ours: () => byMix(1 / 17, oz(4), HUNDRED),
    near: { within: 0.001 },
    mistake: { what: 'one in sixteen for one to sixteen', gives: 156.25 },
  },
  {
    name: '3/4 oz of ascorbic acid to 100 lb',
    source: 'figure printed as a US maximum, smokingmeatforums.com (hobby)',
    basis: 'stated',
    note: 'printed without its decimals',
    expected: 469,
    ours: () => ingoingPpm(oz(0.75), HUNDRED),
    near: { within: 0.5 },
    mistake: { what: '99.8 lb for a hundred', gives: (0.75e6) / (99.8 * 16) },
  },
]; // prettier-ignore
