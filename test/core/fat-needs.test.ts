import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fatNeed, sumNeeds, toOrder, type GrindToCome } from '../../src/core/fat-needs.ts';

const sure = (mean: number) => Object.freeze({ mean, sd: 0 });
const grind: GrindToCome = Object.freeze({
  trim: sure(10_000),
  trimFat: sure(0.02),
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

  it('spreads with the weight of the trim, a tenth of a gram a gram, and with its fat, 12.5 kg a whole', () => {
    expect(fatNeed({ ...grind, trim: { mean: 10_000, sd: 2000 } }).sd).toBeCloseTo(200, 9);
    expect(fatNeed({ ...grind, trimFat: { mean: 0.02, sd: 0.01 } }).sd).toBeCloseTo(125, 9);
    const both = { ...grind, trim: { mean: 10_000, sd: 2000 }, trimFat: { mean: 0.02, sd: 0.01 } };
    expect(fatNeed(both).sd).toBeCloseTo(Math.sqrt(200 ** 2 + 125 ** 2), 9);
  });

  it('wants nothing where the trim is fat enough', () => {
    expect(fatNeed({ ...grind, trimFat: { mean: 0.1, sd: 0.02 } })).toEqual({ mean: 0, sd: 0 });
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
          const { mean } = fatNeed({ trim: sure(grams), trimFat: sure(lean), fatFat: fat, target });
          expect(grams * lean + mean * fat).toBeCloseTo((grams + mean) * target, 6);
        },
      ),
    );
  });

  it('answers wrong input with a typed problem', () => {
    const problem = (more: Partial<GrindToCome>) => () => fatNeed({ ...grind, ...more });
    expect(problem({ trim: sure(-1) })).toThrow(expect.objectContaining({ code: 'grams.negative' }));
    expect(problem({ target: 1.2 })).toThrow(expect.objectContaining({ code: 'share.out-of-range' }));
    expect(problem({ fatFat: 0.1 })).toThrow(expect.objectContaining({ code: 'fat.too-lean' }));
    expect(() => sumNeeds([], 1)).toThrow(expect.objectContaining({ code: 'probability.out-of-range' }));
  });
});

describe('sumNeeds', () => {
  it('adds variances over animals: 300 and 400 make 500', () => {
    const { low, mean, high } = sumNeeds([[{ mean: 1000, sd: 300 }], [{ mean: 500, sd: 400 }]], 0.8);
    expect(mean).toBe(1500);
    expect(low).toBeCloseTo(1500 - Z90 * 500, 2);
    expect(high).toBeCloseTo(1500 + Z90 * 500, 2);
  });

  it('adds spreads within one animal: 300 and 400 make 700', () => {
    const one = [{ mean: 1000, sd: 300 }, { mean: 500, sd: 400 }]; // prettier-ignore
    expect(sumNeeds([one], 0.8).high).toBeCloseTo(1500 + Z90 * 700, 2);
  });

  it('ends at nothing below, and is nothing for nobody', () => {
    expect(sumNeeds([[{ mean: 10, sd: 100 }]], 0.8).low).toBe(0);
    expect(sumNeeds([], 0.8)).toEqual({ low: 0, mean: 0, high: 0 });
  });
});

describe('toOrder', () => {
  it('is what is not on hand, end by end', () => {
    expect(toOrder({ low: 12, mean: 18, high: 25 }, 0)).toEqual({ low: 12, mean: 18, high: 25 });
    expect(toOrder({ low: 12, mean: 18, high: 25 }, 15)).toEqual({ low: 0, mean: 3, high: 10 });
  });
});
