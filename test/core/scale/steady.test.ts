import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSteady, type TimedWeight } from '../../../src/core/scale/line.ts';
import { GRAMS_PER } from '../../../src/core/values/units.ts';

const rule = Object.freeze({ least: 3, overMs: 1000, stepGrams: 10 });
const at = (...pairs: [number, number][]): TimedWeight[] =>
  Object.freeze(pairs.map(([ms, grams]) => Object.freeze({ at: ms, grams }))) as TimedWeight[];

describe('isSteady', () => {
  it.each<[string, TimedWeight[], boolean]>([
    ['equal over the time', at([0, 8445], [500, 8445], [1000, 8445]), true],
    ['within one step', at([0, 8440], [500, 8450], [1000, 8445]), true],
    ['two steps apart', at([0, 8435], [500, 8455], [1000, 8445]), false],
    ['equal, but not for long enough', at([0, 8445], [400, 8445], [900, 8445]), false],
    ['equal, but too few', at([0, 8445], [1000, 8445]), false],
    ['just put on', at([0, 0], [900, 0], [1000, 8445], [1100, 8445], [1200, 8445]), false],
    ['moved long ago', at([0, 0], [500, 8445], [1000, 8445], [1500, 8445]), true],
    ['a slow scale', at([0, 8445], [2000, 8445], [4000, 8445]), true],
    ['a slow scale that moved', at([0, 8400], [2000, 8445], [4000, 8445]), false],
    ['none', [], false],
  ])('%s: %s', (_, readings, steady) => expect(isSteady(readings, rule)).toBe(steady));

  it('accepts a step in pounds, although grams do not represent it exactly', () => {
    const step = 0.02 * GRAMS_PER.lb;
    const grams = [18.6, 18.62, 18.6].map((pounds) => pounds * GRAMS_PER.lb);
    const readings = grams.map((one, index) => ({ grams: one, at: index * 600 }));
    expect(isSteady(readings, { least: 3, overMs: 1000, stepGrams: step })).toBe(true);
  });

  it('refuses times that run backwards, and non-finite numbers', () => {
    expect(() => isSteady(at([500, 1], [0, 1]), rule)).toThrow(
      expect.objectContaining({ code: 'scale.clock' }),
    );
    expect(() => isSteady(at([0, NaN]), rule)).toThrow(
      expect.objectContaining({ code: 'number.not-finite' }),
    );
    expect(() => isSteady(at([Infinity, 1]), rule)).toThrow(
      expect.objectContaining({ code: 'number.not-finite' }),
    );
  });

  it('does not depend on the time of day or on readings before the window', () => {
    const weights = fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(weights, fc.nat(1e9), (grams, start) => {
        const readings = grams.map((one, index) => ({ grams: one, at: start + index * 250 }));
        const later = readings.map((one) => ({ ...one, at: one.at + 86_400_000 }));
        const longer = [{ grams: 9999, at: start - 5000 }, ...readings];
        const steady = isSteady(readings, rule);
        expect(isSteady(later, rule)).toBe(steady);
        // An older reading can only matter where the readings alone do not yet cover the time.
        if (readings.length > 4) expect(isSteady(longer, rule)).toBe(steady);
        // The slow way: every pair of the last five.
        const last = grams.slice(-5);
        const close = last.length === 5 && last.every((a) => last.every((b) => Math.abs(a - b) <= 10));
        expect(steady).toBe(close);
      }),
      { numRuns: 1000 },
    );
  });
});
