/**
 * What the model says of each species before a shop weighed anything, against published figures. A figure counts as met when it lies inside the
 * model's range; the row shows the model's mean. Single animals and traders' own figures are not used: what one doe
 * gave says nothing of a mean.
 */
import { describe, it } from 'vitest';
import species from '../../resources/species.json' with { type: 'json' };
import type { Brought, SpeciesProfile } from '../../src/core/species.ts';
import { hangingFrom, type WeighedAs } from '../../src/core/yield-convert.ts';
import { learn, predict, type Part, type Range } from '../../src/core/yield.ts';
import { check } from './record.ts';

const profiles = species as SpeciesProfile[];
const model = learn(profiles, []);
const profileOf = (code: string): SpeciesProfile => {
  const found = profiles.find((profile) => profile.code === code);
  if (!found) throw new Error(`no profile ${code}`);
  return found;
};

/** A part of an animal told by its weight at some stage. Units go in and come out alike. */
function foretold(code: string, stage: WeighedAs, weight: number, part: Part, level = 0.8): Range {
  const guess = hangingFrom({ stage, grams: weight, profile: profileOf(code), level });
  const brought: Brought = 'skinned';
  const asked = { hangingGrams: guess.grams, hangingLogSd: guess.logSd, level, seed: 1 };
  return predict(model, { ...asked, group: { species: code, brought } }).parts[part];
}

function hanging(code: string, stage: WeighedAs, weight: number, level = 0.8): Range {
  const { grams, low, high } = hangingFrom({ stage, grams: weight, profile: profileOf(code), level });
  return { mean: grams, low, high };
}

/** Passes when the published figure lies in the range. */
function holds(name: string, source: string, published: number, { mean, low, high }: Range): void {
  const tolerance = published > mean ? high - mean : mean - low;
  check({ name, source, expected: published, got: mean, tolerance });
}

const WYOMING =
  'Univ. of Wyoming AES B-594R and B-589R, 2003 (lower legs off); method read, means as others report them';
const NDAKOTA = 'Reed et al., Meat Muscle Biol., 2019, doi 10.22175/mmb2019.04.0013, abstract';
const ALBERTA = 'Measurements, weights, and carcass yields of pronghorns in Alberta, abstract';
const WGFD = 'Wyoming Game and Fish Department, How much meat can be expected from an antelope, 2015';
const OKLAHOMA = 'Estimating deer weight from field-dressed weight, Noble Research Institute, 2012';
const CAROLINA = 'Body weight and heart girth of deer from South Carolina, SEAFWA 1976, equations for adults';
const MOOSE = 'Carcass weights of moose, Central Interior of British Columbia, Alces 48:105-122, 2012';

/** Field-dressed over whole weight of a species: 8 in 10 of a normal. */
function dressedOf(code: string): Range {
  const { mean, sd } = profileOf(code).ratios.liveToDressed;
  return { mean, low: mean - 1.2816 * sd, high: mean + 1.2816 * sd };
}

describe('elk and mule deer of Wyoming', () => {
  it.each([
    ['elk', 'bull', 437, 364, 218],
    ['elk', 'cow', 339, 294, 169],
    ['mule-deer', 'buck', 114, 96, 55],
    ['mule-deer', 'doe', 93, 79, 44],
  ])('%s, %s: %d lb field-dressed, lower legs off', (code, sex, dressed, hung, boneless) => {
    holds(
      `${code} ${sex}: ${dressed} lb dressed, lb hanging`,
      WYOMING,
      hung,
      hanging(code, 'legs off', dressed),
    );
    const meat = foretold(code, 'legs off', dressed, 'takeHome');
    holds(`${code} ${sex}: ${dressed} lb dressed, lb boneless`, WYOMING, boneless, meat);
    // Rounded means: the mean itself agrees to 2 points of the dressed weight.
    check({
      name: `${code} ${sex}: boneless share of dressed`,
      source: WYOMING,
      expected: boneless / dressed,
      got: meat.mean / dressed,
      tolerance: 0.02,
    });
  });

  it('elk by sex: boneless of hanging', () => {
    const { bySex } = profileOf('elk').takeHome;
    const expected = [218 / 364, 169 / 294];
    check({
      name: 'elk bulls, cows: boneless of hanging',
      source: WYOMING,
      expected,
      got: [bySex?.male ?? NaN, bySex?.female ?? NaN],
      tolerance: 0.0005,
    });
  });
});

describe('mule deer, elk and moose of North Dakota', () => {
  it('mule deer, live to field-dressed, entrails out', () => {
    check({
      name: 'mule deer: live to dressed',
      source: NDAKOTA,
      expected: 0.7719,
      got: dressedOf('mule-deer').mean,
      tolerance: 0.005,
    });
  });

  it.each(['elk', 'moose'])('%s lies below the mule deer', (code) => {
    check({
      name: `${code}: live to dressed below the 0.7719 of mule deer (1: so it is)`,
      source: NDAKOTA,
      expected: 1,
      got: Number(dressedOf(code).mean < 0.7719),
      tolerance: 0,
    });
  });

  it.each([
    ['mule-deer', 0.1324],
    ['elk', 0.1659],
    ['moose', 0.1232],
  ])('shot loss of %s, of the lean it had', (code, lost) => {
    // Shot loss inside or outside "total lean" is not said: of take-home it is lost / (1 - lost) or lost itself.
    const { takeHome, loss } = profileOf(code);
    const ours = ((1 - takeHome.mean) * loss.damage.mean) / takeHome.mean;
    check({
      name: `${code}: shot loss over take-home, between ${lost} and ${lost}/(1 - ${lost}) (1: so it is)`,
      source: NDAKOTA,
      expected: 1,
      got: Number(ours > lost - 0.005 && ours < lost / (1 - lost) + 0.005),
      tolerance: 0,
    });
  });
});

describe('pronghorn', () => {
  it('of Alberta: group means of live to dressed and live to hanging', () => {
    const { ratios } = profileOf('pronghorn');
    for (const share of [0.66, 0.75, 1 / 1.36, 1 / 1.51])
      holds(`pronghorn: live to dressed ${share.toFixed(3)}`, ALBERTA, share, dressedOf('pronghorn'));
    for (const share of [0.51, 0.57, 1 / 1.78, 1 / 1.95])
      holds(
        `pronghorn: live to hanging ${share.toFixed(3)}`,
        ALBERTA,
        share,
        hanging('pronghorn', 'live', 1),
      );
    const ofSexes = (['liveToDressed', 'liveToHanging', 'dressedToHanging'] as const).flatMap((step) => [
      ratios[step]?.bySex?.male ?? NaN,
      ratios[step]?.bySex?.female ?? NaN,
    ]);
    check({
      name: 'pronghorn bucks, does: live to dressed, live to hanging, dressed to hanging',
      source: ALBERTA,
      expected: [1 / 1.36, 1 / 1.51, 1 / 1.78, 1 / 1.95, 1.36 / 1.78, 1.51 / 1.95],
      got: ofSexes,
      tolerance: 0.0006,
    });
  });

  it('of Wyoming: pounds boned from pounds field-dressed', () => {
    holds(
      'pronghorn buck: 77.5 lb dressed, lb boned',
      WGFD,
      37.5,
      foretold('pronghorn', 'dressed', 77.5, 'takeHome'),
    );
    holds(
      'pronghorn doe: 67.5 lb dressed, lb boned',
      WGFD,
      30,
      foretold('pronghorn', 'dressed', 67.5, 'takeHome'),
    );
  });
});

describe('white-tailed deer', () => {
  it('live to field-dressed', () => {
    const range = dressedOf('white-tail');
    holds('white-tail: live to dressed, 105 lb of 134', OKLAHOMA, 105 / 134, range);
    for (const girth of [30, 38]) {
      const share = (5.6037 * girth - 94.0982) / (6.552 * girth - 95.0128);
      holds(`white-tail: live to dressed, girth ${girth} in`, CAROLINA, share, range);
    }
  });

  it('ground meat of a donated deer, 40 lb', () => {
    const { typical } = profileOf('white-tail').hangingGrams;
    const pounds = foretold('white-tail', 'hanging', typical / 453.59237, 'takeHome');
    holds(
      'white-tail: lb of meat of a typical deer',
      'Hunters Helping the Hungry, West Virginia DNR',
      40,
      pounds,
    );
  });
});

describe('moose', () => {
  it.each([
    ['adult bull', 249],
    ['adult cow', 199],
    ['juvenile bull', 162],
    ['male calf', 82],
    ['female calf', 81],
  ])('a mean %s of British Columbia (%d kg hanging) is nothing to ask about', (kind, kg) => {
    const { low, typical, high } = profileOf('moose').hangingGrams;
    const usual = { mean: typical / 1000, low: low / 1000, high: high / 1000 };
    holds(`moose, ${kind}: kg hanging`, MOOSE, kg, usual);
  });
});

describe('parts, by proxy', () => {
  it.each(['white-tail', 'mule-deer', 'elk', 'moose', 'caribou'])('%s: bone as in fallow deer', (code) => {
    const source =
      'Stanisz et al., Ann. Anim. Sci. 15:1055-1067, 2015: 21.5-22.1 % of fallow deer parts (proxy)';
    check({
      name: `${code}: bone share of hanging`,
      source,
      expected: 0.218,
      got: foretold(code, 'hanging', 1, 'bone').mean,
      tolerance: 0.015,
    });
  });

  it('deer primals: the printed shares over their sum of 100.7', () => {
    const printed = { neck: 12.6, flank: 15.4, shoulder: 17.8, saddle: 15.5, haunch: 39.4 };
    for (const { code, share } of profileOf('elk').primals)
      check({
        name: `elk ${code}: share of hanging (fallow deer, proxy)`,
        source: 'M.Agr.Sc. thesis, Massey University, 1985, 24 bucks, normalised',
        expected: printed[code as keyof typeof printed] / 100.7,
        got: share,
        tolerance: 0.0001,
      });
  });

  it.each([
    ['white-tail', 7.13], ['mule-deer', 7.13], ['elk', 8.82], ['moose', 0.74], ['caribou', 3.36],
    ['pronghorn', 2.03], ['wild-boar', 3.33], ['black-bear', 8.3], ['bison', 1.84],
  ])('%s: fat of trim', (code, fat) => {
    const { mean, ndb } = profileOf(code).trimFat;
    const source = `USDA National Nutrient Database, SR 26, NDB ${ndb}`;
    check({ name: `${code}: fat, g per 100 g`, source, expected: fat, got: mean * 100, digits: 9 });
  }); // prettier-ignore
});
