import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fatNeed,
  recipeNeed,
  sumNeeds,
  toOrder,
  type GrindToCome,
  type NeedEstimate,
} from '../../../src/core/fat/needs.ts';

const confirmed = (mean: number) => Object.freeze({ mean, sd: 0 });
const grind: GrindToCome = Object.freeze({
  trim: confirmed(10_000),
  trimFat: confirmed(0.02),
  fatFat: 0.9,
  target: 0.1,
});
/** Z of 90 %, to six places (any table of the normal distribution). */
const Z90 = 1.281552;

describe('fatNeed', () => {
  it('is the two-part balance: 10 kg at 2 % to 10 % with fat of 90 % takes 1 kg', () => {
    expect(fatNeed(grind).mean).toBeCloseTo(1000, 9);
    expect(fatNeed(grind).sd).toBe(0);
    // (10 000 × 0.02 + 1000 × 0.9) / 11 000 = 0.1
    expect((10_000 * 0.02 + 1000 * 0.9) / 11_000).toBeCloseTo(0.1, 12);
  });

  it('has a spread from the weight of the trim, and from its fat', () => {
    expect(fatNeed({ ...grind, trim: { mean: 10_000, sd: 2000 } }).sd).toBeCloseTo(200, 9);
    expect(fatNeed({ ...grind, trimFat: { mean: 0.02, sd: 0.01 } }).sd).toBeCloseTo(125, 9);
    const both = { ...grind, trim: { mean: 10_000, sd: 2000 }, trimFat: { mean: 0.02, sd: 0.01 } };
    expect(fatNeed(both).sd).toBeCloseTo(Math.sqrt(200 ** 2 + 125 ** 2), 9);
  });

  it('is zero where the trim is fat enough', () => {
    expect(fatNeed({ ...grind, trimFat: { mean: 0.1, sd: 0.02 } })).toMatchObject({ mean: 0, sd: 0 });
  });

  it('brings any trim to its target', () => {
    const share = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        share(0, 50_000),
        share(0, 0.05),
        share(0.06, 0.3),
        share(0.5, 1),
        (grams, lean, target, fat) => {
          const { mean } = fatNeed({ trim: confirmed(grams), trimFat: confirmed(lean), fatFat: fat, target });
          expect(grams * lean + mean * fat).toBeCloseTo((grams + mean) * target, 6);
        },
      ),
    );
  });

  it('throws a typed error for wrong input', () => {
    const problem = (more: Partial<GrindToCome>) => () => fatNeed({ ...grind, ...more });
    expect(problem({ trim: confirmed(-1) })).toThrow(expect.objectContaining({ code: 'grams.negative' }));
    expect(problem({ target: 1.2 })).toThrow(expect.objectContaining({ code: 'share.out-of-range' }));
    expect(problem({ fatFat: 0.1 })).toThrow(expect.objectContaining({ code: 'fat.too-lean' }));
    expect(() => sumNeeds([], 1, { trimFatSd: () => 0, fatFatSd: 0 })).toThrow(
      expect.objectContaining({ code: 'probability.out-of-range' }),
    );
  });
});

describe('sumNeeds', () => {
  /** A need by weight alone: an own part and a shared part, in grams. */
  const byWeight = (mean: number, ownSd: number, sharedSd = 0): NeedEstimate => ({
    mean,
    sd: Math.hypot(ownSd, sharedSd),
    weight: { ownSd, sharedSd },
    slopes: { trimFat: 0, fatFat: 0 },
  });
  const elk = (...needs: NeedEstimate[]) => ({ species: 'elk', needs });
  const moose = (...needs: NeedEstimate[]) => ({ species: 'moose', needs });
  const certain = { trimFatSd: () => 0, fatFatSd: 0 };

  it("adds the variances of the animals' own parts: 300 and 400 make 500", () => {
    const { low, mean, high } = sumNeeds([elk(byWeight(1000, 300)), elk(byWeight(500, 400))], 0.8, certain);
    expect(mean).toBe(1500);
    expect(low).toBeCloseTo(1500 - Z90 * 500, 2);
    expect(high).toBeCloseTo(1500 + Z90 * 500, 2);
  });

  it("adds the SDs within one animal, and of a species' shared part: 300 and 400 make 700", () => {
    const one = elk(byWeight(1000, 300), byWeight(500, 400));
    expect(sumNeeds([one], 0.8, certain).high).toBeCloseTo(1500 + Z90 * 700, 2);
    const same = [elk(byWeight(1000, 0, 300)), elk(byWeight(500, 0, 400))];
    expect(sumNeeds(same, 0.8, certain).high).toBeCloseTo(1500 + Z90 * 700, 2);
    const apart = [elk(byWeight(1000, 0, 300)), moose(byWeight(500, 0, 400))];
    expect(sumNeeds(apart, 0.8, certain).high).toBeCloseTo(1500 + Z90 * 500, 2);
  });

  it("includes the uncertainty of the trim's fat and of the added fat", () => {
    // 10 kg of trim at 2 % to 10 % with fat of 90 %: 12,500 g a whole of trim fat, 1000 / 0.8 = 1250 g of added fat.
    const need = fatNeed(grind);
    expect(need.slopes).toEqual({ trimFat: expect.closeTo(-12_500, 9), fatFat: expect.closeTo(-1250, 9) });
    const asked: number[][] = [];
    const trimFatSd = (weights: readonly number[]) => {
      asked.push([...weights]);
      return Math.abs(weights.reduce((sum, weight) => sum + weight, 0)) * 0.012; // all of it shared
    };
    const { high } = sumNeeds([elk(need), elk(need)], 0.8, { trimFatSd, fatFatSd: 0.03 });
    expect(asked).toEqual([[expect.closeTo(-12_500, 9), expect.closeTo(-12_500, 9)]]);
    expect(high).toBeCloseTo(2000 + Z90 * Math.hypot(25_000 * 0.012, 2500 * 0.03), 2);
  });

  it('is truncated at zero, and zero without animals', () => {
    expect(sumNeeds([elk(byWeight(10, 100))], 0.8, certain).low).toBe(0);
    expect(sumNeeds([], 0.8, certain)).toEqual({ low: 0, mean: 0, high: 0 });
  });
});

describe('the need of a recipe', () => {
  it('follows the trim in proportion, whatever fat the trim has', () => {
    // 70 % game and 30 % pork: 7 kg take 3 kg; 400 g of trim more or less move it by 400 × 3 / 7.
    const need = recipeNeed({ mean: 7000, sd: 500, sharedSd: 300 }, 3 / 7);
    expect(need.mean).toBeCloseTo(3000, 9);
    expect(need.weight.sharedSd).toBeCloseTo((300 * 3) / 7, 9);
    expect(need.weight.ownSd).toBeCloseTo((400 * 3) / 7, 9);
    expect(need.slopes).toEqual({ trimFat: 0, fatFat: 0 });
  });

  it('refuses less than nothing, and what is no number', () => {
    const code = (of: string) => expect.objectContaining({ code: of });
    expect(() => recipeNeed({ mean: -1, sd: 0 }, 1)).toThrow(code('grams.negative'));
    expect(() => recipeNeed({ mean: 1, sd: 0 }, NaN)).toThrow(code('share.out-of-range'));
    expect(() => recipeNeed({ mean: 1, sd: 0 }, -0.1)).toThrow(code('share.out-of-range'));
  });
});

describe('toOrder', () => {
  it('is the need minus the stock, at each end', () => {
    expect(toOrder({ low: 12, mean: 18, high: 25 }, 0)).toEqual({ low: 12, mean: 18, high: 25 });
    expect(toOrder({ low: 12, mean: 18, high: 25 }, 15)).toEqual({ low: 0, mean: 3, high: 10 });
  });
});
