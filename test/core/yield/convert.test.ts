import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import species from '../../../resources/species.json' with { type: 'json' };
import type { DressedRatios, Sex, SpeciesProfile } from '../../../src/core/species/species.ts';
import { hangingFrom, type WeighedAs } from '../../../src/core/yield/convert.ts';

const profiles = species as SpeciesProfile[];
const elk = profiles.find(({ code }) => code === 'elk') as SpeciesProfile;
const pronghorn = profiles.find(({ code }) => code === 'pronghorn') as SpeciesProfile;
const whiteTail = profiles.find(({ code }) => code === 'white-tail') as SpeciesProfile;
const moose = profiles.find(({ code }) => code === 'moose') as SpeciesProfile;

describe('hangingFrom', () => {
  it('uses the direct published ratio, else the product', () => {
    const ratio = (stage: WeighedAs, profile: SpeciesProfile): number =>
      hangingFrom({ stage, grams: 1000, profile, level: 0.8 }).ratio;
    expect(ratio('dressed', elk)).toBe(0.77);
    expect(ratio('legs off', elk)).toBe(0.85);
    expect(ratio('live', elk)).toBe(0.57);
    expect(moose.ratios.liveToHanging).toBeUndefined();
    expect(ratio('live', moose)).toBeCloseTo(0.74 * 0.78, 12);
  });

  it('uses the ratio of the sex if published, else that of the species', () => {
    const ratio = (stage: WeighedAs, profile: SpeciesProfile, sex: Sex): number =>
      hangingFrom({ stage, grams: 1000, profile, sex, level: 0.8 }).ratio;
    // Pronghorns of Alberta: whole weight = 1.78 (bucks) and 1.95 (does) times the dressed carcass.
    expect(ratio('live', pronghorn, 'male')).toBeCloseTo(1 / 1.78, 3);
    expect(ratio('live', pronghorn, 'female')).toBeCloseTo(1 / 1.95, 3);
    expect(ratio('dressed', pronghorn, 'male')).toBeCloseTo(1.36 / 1.78, 3);
    expect(ratio('dressed', pronghorn, 'female')).toBeCloseTo(1.51 / 1.95, 3);
    expect(ratio('live', pronghorn, 'unknown')).toBe(0.54);
    expect(ratio('live', elk, 'male')).toBe(ratio('live', elk, 'unknown'));
  });

  it('grades a product by its weaker factor, and names both sources', () => {
    const from = hangingFrom({ stage: 'live', grams: 1000, profile: whiteTail, level: 0.8 }).from;
    expect(whiteTail.ratios.liveToDressed.grade).toBe('measured');
    expect(from?.grade).toBe('assumption');
    expect(from?.cites).toEqual([
      'noble-2012',
      'seafwa-1976',
      'fitzhenry-2019',
      'alberta-pronghorn',
      'alabama-deer',
    ]);
  });

  it.each(profiles)('gives the same hanging weight by either way of field-dressing, $code', ({ ratios }) => {
    const by = ({ liveToDressed, dressedToHanging }: DressedRatios): number =>
      liveToDressed.mean * dressedToHanging.mean;
    // Lower legs leave with the dressing or with the hide: what hangs is the same animal.
    expect(Math.abs(by(ratios.legsOff) - by(ratios))).toBeLessThan(0.015);
    expect(ratios.legsOff.liveToDressed.mean).toBeLessThan(ratios.liveToDressed.mean);
    expect(ratios.legsOff.dressedToHanging.mean).toBeGreaterThan(ratios.dressedToHanging.mean);
  });

  it.each(['hanging', 'quarters', 'boned'] as const)('returns %s unchanged', (stage) => {
    expect(hangingFrom({ stage, grams: 5000, profile: elk, level: 0.8 })).toEqual({
      grams: 5000, logSd: 0, low: 5000, high: 5000, ratio: 1, from: null,
    }); // prettier-ignore
  });

  it('keeps the published spread: the relative SD of the weight is that of the ratio', () => {
    const { logSd } = hangingFrom({ stage: 'dressed', grams: 1, profile: elk, level: 0.8 });
    const { mean, sd } = elk.ratios.dressedToHanging;
    // For a log-normal, cv^2 = exp(s^2) - 1.
    expect(Math.sqrt(Math.expm1(logSd ** 2))).toBeCloseTo(sd / mean, 12);
  });

  it('scales, nests and contains the weight', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...profiles),
        fc.constantFrom('live' as const, 'dressed' as const, 'legs off' as const),
        fc.double({ min: 100, max: 1e6, noNaN: true }),
        fc.double({ min: 0.3, max: 0.6, noNaN: true }),
        (profile, stage, grams, level) => {
          const narrow = hangingFrom({ stage, grams, profile, level });
          const wide = hangingFrom({ stage, grams, profile, level: level + 0.3 });
          expect(wide.low).toBeLessThan(narrow.low);
          expect(wide.high).toBeGreaterThan(narrow.high);
          expect(narrow.low).toBeLessThan(narrow.grams);
          expect(narrow.high).toBeGreaterThan(narrow.grams);
          expect(narrow.high).toBeLessThan(grams * 1.1);
          const doubled = hangingFrom({ stage, grams: 2 * grams, profile, level });
          expect(doubled.low / narrow.low).toBeCloseTo(2, 9);
          expect(narrow.from?.source.length).toBeGreaterThan(5);
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('throws a typed error for wrong input', () => {
    const right = { stage: 'live', grams: 1000, profile: elk, level: 0.8 } as const;
    for (const grams of [0, -1, Number.NaN, Infinity])
      expect(() => hangingFrom({ ...right, grams })).toThrow(
        expect.objectContaining({ code: 'yield.weight' }),
      );
    for (const level of [0, 1, Number.NaN])
      expect(() => hangingFrom({ ...right, level })).toThrow(
        expect.objectContaining({ code: 'yield.level' }),
      );
    expect(() => hangingFrom({ ...right, stage: 'primal' as 'live' })).toThrow(
      expect.objectContaining({ code: 'yield.stage' }),
    );
  });
});
