import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import species from '../../resources/species.json' with { type: 'json' };
import type { SpeciesProfile } from '../../src/core/species.ts';
import { hangingFrom } from '../../src/core/yield-convert.ts';

const profiles = species as SpeciesProfile[];
const elk = profiles.find(({ code }) => code === 'elk') as SpeciesProfile;
const moose = profiles.find(({ code }) => code === 'moose') as SpeciesProfile;

describe('hangingFrom', () => {
  it('uses the published ratio, the direct one first, else the product', () => {
    expect(hangingFrom({ stage: 'dressed', grams: 100_000, profile: elk, level: 0.8 }).grams).toBeCloseTo(
      85_000,
      6,
    );
    expect(hangingFrom({ stage: 'live', grams: 100_000, profile: elk, level: 0.8 }).grams).toBeCloseTo(
      59_500,
      6,
    );
    const direct = moose.ratios.liveToHanging?.mean ?? Number.NaN;
    expect(hangingFrom({ stage: 'live', grams: 1000, profile: moose, level: 0.8 }).ratio).toBe(direct);
  });

  it.each(['hanging', 'quarters', 'boned'] as const)('takes %s as it stands', (stage) => {
    expect(hangingFrom({ stage, grams: 5000, profile: elk, level: 0.8 })).toEqual({
      grams: 5000, logSd: 0, low: 5000, high: 5000, ratio: 1, source: '',
    }); // prettier-ignore
  });

  it('keeps the published spread: sd over mean of the weight is that of the ratio', () => {
    const { logSd } = hangingFrom({ stage: 'dressed', grams: 1, profile: elk, level: 0.8 });
    const { mean, sd } = elk.ratios.dressedToHanging;
    // For a log-normal, cv^2 = exp(s^2) - 1.
    expect(Math.sqrt(Math.expm1(logSd ** 2))).toBeCloseTo(sd / mean, 12);
  });

  it('scales, nests and holds the weight', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...profiles),
        fc.constantFrom('live' as const, 'dressed' as const),
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
          expect(narrow.source.length).toBeGreaterThan(5);
        },
      ),
      { numRuns: 1000 },
    );
  });

  it('answers wrong input with a typed problem', () => {
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
