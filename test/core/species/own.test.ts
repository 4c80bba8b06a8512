/** Species of a shop's own hold together like those that come with the program. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import species from '../../../resources/species.json' with { type: 'json' };
import { ValidationError } from '../../../src/core/values/validation-error.ts';
import { changedSpecies } from '../../../src/core/species/changed.ts';
import { ownSpecies, type SpeciesInput } from '../../../src/core/species/own.ts';
import { scaledWeights } from '../../../src/core/species/weights.ts';
import type { SpeciesProfile } from '../../../src/core/species/species.ts';
import { learn, predict } from '../../../src/core/yield/yield.ts';
import { splitPriors } from '../../../src/core/yield/prior.ts';
import { frozen } from '../balance/graphs.ts';
import { expectWholeProfile } from './whole-profile.ts';

const profiles = frozen(species as SpeciesProfile[]);
const deer = profiles.find(({ code }) => code === 'white-tail')!;

function wish(more: Partial<SpeciesInput> = {}, relative = deer): SpeciesInput {
  const weights = { typicalGrams: 24_000, leastGrams: null, mostGrams: null };
  return {
    code: 'sika', name: 'Sika deer', many: 'sika deer', words: { male: 'stag', female: 'hind', young: 'calf' },
    hangingGrams: scaledWeights(relative, weights), primals: relative.primals, ...more,
  }; // prettier-ignore
}
const code = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    if (error instanceof ValidationError) return error.code;
    throw error;
  }
  return '';
};

describe('ownSpecies', () => {
  it('copies the means, counts them as one animal, and widens their spread', () => {
    const sika = ownSpecies(deer, frozen(wish()));
    expect(sika.takeHome).toMatchObject({ mean: 0.55, animals: 1, low: 0.45, high: 0.65 });
    expect(sika.takeHome.sd).toBeCloseTo(0.072, 12);
    expect(sika.ratios.liveToDressed.sd).toBeCloseTo(0.035 * Math.SQRT2, 12);
    expect(sika.trimFat).toMatchObject({ mean: 0.0713, ndb: null });
    expect(sika.takeHome.source).toMatch(
      /^taken over from White-tailed deer: the shop's own choice; between fallow deer/,
    );
    expect(sika).toMatchObject({ like: 'white-tail', body: 'cervid', family: 'deer', name: 'Sika deer' });
  });

  it('makes a complete profile for the yield model, whatever the relative', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...profiles),
        fc.double({ min: 9000, max: 600_000, noNaN: true }),
        fc.array(fc.double({ min: 1e-3, max: 1e3, noNaN: true }), { minLength: 1, maxLength: 20 }),
        (relative, typicalGrams, shares) => {
          const primals = shares.map((share, i) => ({
            code: `p${i}`,
            name: `Piece ${i}`,
            pair: i % 2 === 0,
            share,
          }));
          const own = ownSpecies(
            relative,
            wish(
              {
                primals,
                hangingGrams: scaledWeights(relative, { typicalGrams, leastGrams: null, mostGrams: null }),
              },
              relative,
            ),
          );
          expectWholeProfile(own);
          for (const base of ['carcass', 'quarters', 'boned'] as const) splitPriors(own, base);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('is less certain than its relative: a wider range around the same centre', () => {
    const sika = ownSpecies(deer, wish());
    const model = learn([deer, sika], []);
    const range = (name: string) =>
      predict(model, {
        hangingGrams: 24_000, level: 0.8, seed: 1,
        group: { species: name, brought: 'skinned', sex: 'male', age: 'adult' },
      }).parts.takeHome; // prettier-ignore
    const [known, guessed] = [range('white-tail'), range('sika')];
    expect(guessed.high - guessed.low).toBeGreaterThan((known.high - known.low) * 1.2);
    expect(guessed.mean / known.mean).toBeCloseTo(1, 1);
  });

  it('scales the primals to a sum of one', () => {
    const primals = [
      { code: 'front', name: 'Front', pair: true, share: 40 },
      { code: 'hind', name: 'Hind', pair: true, share: 120 },
    ];
    expect(ownSpecies(deer, wish({ primals })).primals.map(({ share }) => share)).toEqual([0.25, 0.75]);
  });

  it.each([
    ['species.no-primals', []],
    ['species.primal-share', [{ code: 'a', name: 'A', pair: false, share: 0 }]],
    ['species.primal-share', [{ code: 'a', name: 'A', pair: false, share: NaN }]],
    ['species.primal-twice', ['Neck', 'neck'].map((name) => ({ code: name, name, pair: false, share: 1 }))],
    ['species.too-many-primals', Array.from({ length: 21 }, (_, i) => ({ code: `${i}`, name: `${i}`, pair: false, share: 1 }))],
  ] as const)('refuses pieces that cannot be: %s', (problem, primals) => {
    expect(code(() => ownSpecies(deer, wish({ primals })))).toBe(problem);
  }); // prettier-ignore
});

describe('scaledWeights', () => {
  it('keeps the proportions of the relative and the limits of the shop', () => {
    const half = scaledWeights(deer, { typicalGrams: 16_000, leastGrams: null, mostGrams: null });
    expect(half).toMatchObject({ least: 3000, low: 9000, typical: 16_000, high: 30_000, most: 50_000 });
    const given = scaledWeights(deer, { typicalGrams: 16_000, leastGrams: 12_000, mostGrams: 20_000 });
    expect(given).toMatchObject({ least: 12_000, low: 12_000, typical: 16_000, high: 20_000, most: 20_000 });
  });

  it.each([
    [{ typicalGrams: 16_000, leastGrams: 16_000, mostGrams: null }],
    [{ typicalGrams: 16_000, leastGrams: 900, mostGrams: null }],
    [{ typicalGrams: 16_000, leastGrams: null, mostGrams: 15_000 }],
    [{ typicalGrams: 1200, leastGrams: null, mostGrams: null }],
    [{ typicalGrams: NaN, leastGrams: null, mostGrams: null }],
  ])('refuses %j', (weights) => expect(code(() => scaledWeights(deer, weights))).toBe('species.weights'));
});

describe('changedSpecies', () => {
  it('changes names, words and weights, and no figure', () => {
    const renamed = deer.primals.map((primal) => ({ ...primal, name: `The ${primal.name}`, share: 9 }));
    const changed = changedSpecies(deer, frozen(wish({ name: 'Deer', primals: renamed })));
    expectWholeProfile(changed);
    expect(changed).toEqual({
      ...deer, name: 'Deer', many: 'sika deer', words: wish().words, hangingGrams: wish().hangingGrams,
      primals: deer.primals.map((primal) => ({ ...primal, name: `The ${primal.name}` })),
    }); // prettier-ignore
  });

  it('refuses added, missing and duplicate primals', () => {
    const { primals } = deer;
    const other = { code: 'other', name: 'Other', pair: false, share: 1 };
    expect(code(() => changedSpecies(deer, wish({ primals: [...primals, other] })))).toBe(
      'species.supplied-primals',
    );
    expect(code(() => changedSpecies(deer, wish({ primals: primals.slice(1) })))).toBe(
      'species.supplied-primals',
    );
    const alike = primals.map((primal) => ({ ...primal, name: 'Piece' }));
    expect(code(() => changedSpecies(deer, wish({ primals: alike })))).toBe('species.primal-twice');
  });
});
