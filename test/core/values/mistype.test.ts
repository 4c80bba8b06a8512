import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  likelyMistypes,
  slipsByKind,
  type MistypeKind,
  type Typed,
} from '../../../src/core/values/mistype.ts';
import { parseReading, readingGrams } from '../../../src/core/values/reading.ts';

/** What is offered for `typed` if the truth was `meant`, to within a tenth of the smallest step. */
function offered(typed: string, meant: string) {
  const target = readingGrams(parseReading(meant, 'lb'));
  return likelyMistypes(Object.freeze(parseReading(typed, 'lb')), target * 1e-4, target);
}

describe('likelyMistypes', () => {
  it.each<[string, string, MistypeKind]>([
    ['210.0', '120.0', 'digits-swapped'],
    ['81.6', '8.16', 'decimal-slipped'],
    ['8.16', '81.6', 'decimal-slipped'],
    ['816', '81.6', 'decimal-slipped'],
    ['82', '820', 'decimal-slipped'],
    ['0.85', '8.5', 'decimal-slipped'],
    ['84.6 kg', '84.6 lb', 'wrong-unit'],
    ['84.6 lb', '84.6 kg', 'wrong-unit'],
    ['38 oz', '38 lb', 'wrong-unit'],
    ['38 lb', '38 oz', 'wrong-unit'],
    ['412 kg', '412 g', 'wrong-unit'],
    ['412 g', '412 kg', 'wrong-unit'],
    ['47.3', '41.3', 'digit-wrong'],
    ['12.6', '125.6', 'digit-missing'],
    ['12.6', '12.63', 'digit-missing'],
    ['1220.4', '120.4', 'digit-doubled'],
    ['12.33', '12.3', 'digit-doubled'],
  ])('%s for %s: %s', (typed, meant, kind) => {
    const [first] = offered(typed, meant);
    expect(first).toMatchObject({ kind });
    expect(first?.grams).toBeCloseTo(readingGrams(parseReading(meant, 'lb')), 6);
  });

  it('finds the weight of a container that was not subtracted', () => {
    const slips = new Map(slipsByKind(parseReading('126.4', 'lb'), [6.4 * 453.59237]));
    expect(slips.get('tare-left-in')).toEqual([{ digits: 1200, decimals: 1, unit: 'lb' }]);
    expect(offered('126.4', '120.0')).toEqual([]);
  });

  it('ranks the commoner slip first, then the nearer one', () => {
    // 21.0 for 12.0 is one swap, but two wrong figures. 19.3 for about 14: swapped 13.9, else one figure wrong.
    expect(offered('21.0', '12.0')[0]?.kind).toBe('digits-swapped');
    const offers = likelyMistypes({ digits: 193, decimals: 1, unit: 'g' }, 8, 14);
    expect(offers.map(({ grams }) => grams).slice(0, 3)).toEqual([13.9, 14.3, 13.3]);
  });

  const typed: fc.Arbitrary<Typed> = fc.record({
    digits: fc.integer({ min: 1, max: 9999 }),
    decimals: fc.integer({ min: 0, max: 4 }),
    unit: fc.constantFrom('lb', 'oz', 'kg', 'g'),
  });

  it('offers only possible weights, near the target, ranked and unlike the typed one', () => {
    fc.assert(
      fc.property(typed, fc.double({ min: 0.1, max: 50, noNaN: true }), (reading, times) => {
        const target = readingGrams(reading) * times;
        const tolerance = target * 0.2;
        const offers = likelyMistypes(Object.freeze(reading), tolerance, target);
        for (const offer of offers) {
          expect(offer.grams).toBe(readingGrams(offer));
          expect(Math.abs(offer.grams - target)).toBeLessThanOrEqual(tolerance * (1 + 1e-12));
          expect(offer.grams).not.toBe(readingGrams(reading));
          expect(Number.isSafeInteger(offer.digits) && offer.digits > 0).toBe(true);
          expect(offer.decimals).toBeLessThanOrEqual(4);
          expect(offer.plausibility).toBeGreaterThan(0);
        }
        const ranks = offers.map(({ plausibility }) => -plausibility);
        expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
        expect(new Set(offers.map(({ grams }) => grams)).size).toBe(offers.length);
      }),
      { numRuns: 1000 },
    );
  });

  it('finds every swap of two neighbours and every wrong digit', () => {
    fc.assert(
      fc.property(typed, fc.nat(), fc.integer({ min: 1, max: 9 }), (meant, where, by) => {
        const figures = [...String(meant.digits).padStart(meant.decimals + 1, '0')];
        const at = where % figures.length;
        const wrong = figures.with(at, String((Number(figures[at]) + by) % 10));
        const grams = readingGrams(meant);
        const slips = [wrong];
        if (at + 1 < figures.length) {
          slips.push(figures.with(at, figures[at + 1] as string).with(at + 1, figures[at] as string));
        }
        for (const slip of slips) {
          const digits = Number(slip.join(''));
          const lost = String(digits).padStart(meant.decimals + 1, '0').length < figures.length;
          if (digits === meant.digits || digits === 0 || lost) continue; // a reading keeps no leading zeros
          const offers = likelyMistypes({ ...meant, digits }, grams * 1e-9, grams);
          expect(offers.map((offer) => offer.grams)).toContain(grams);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it.each([
    ['number.not-finite', 1, Number.NaN],
    ['tolerance.not-positive', 0, 10],
    ['tolerance.not-positive', Number.NaN, 10],
  ])('answers %s', (code, tolerance, target) => {
    expect(() => likelyMistypes({ digits: 1, decimals: 0, unit: 'g' }, tolerance, target)).toThrow(
      expect.objectContaining({ code }),
    );
  });
});
