import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseReading, readingGrams, readingStepGrams } from '../../../src/core/values/reading.ts';
import type { MassUnit } from '../../../src/core/values/units.ts';

describe('parseReading', () => {
  it.each<[string, number, number, MassUnit]>([
    ['84.6', 846, 1, 'lb'], ['84,6', 846, 1, 'lb'], ['84.60', 8460, 2, 'lb'], ['84', 84, 0, 'lb'], ['84.', 84, 0, 'lb'],
    ['.5', 5, 1, 'lb'], [',5', 5, 1, 'lb'], ['0.5', 5, 1, 'lb'], ['  84.6  ', 846, 1, 'lb'], ['84.6lb', 846, 1, 'lb'],
    ['84.6 lbs', 846, 1, 'lb'], ['84.6 lbs.', 846, 1, 'lb'], ['84.6#', 846, 1, 'lb'], ['84.6 LB', 846, 1, 'lb'], ['84 pounds', 84, 0, 'lb'],
    ['38.4kg', 384, 1, 'kg'], ['38,4 kg', 384, 1, 'kg'], ['38.4 kilos', 384, 1, 'kg'], ['700 g', 700, 0, 'g'], ['700 grams', 700, 0, 'g'],
    ['12 oz', 12, 0, 'oz'], ['12.5 ounces', 125, 1, 'oz'],
    ['84 lb 10 oz', 1354, 0, 'oz'], ['84lb10oz', 1354, 0, 'oz'], ['84 lb 10', 1354, 0, 'oz'], ['84# 10', 1354, 0, 'oz'],
    ['84 lb, 10 oz', 1354, 0, 'oz'], ['84 lb 10.5 oz', 13545, 1, 'oz'], ['0 lb 10 oz', 10, 0, 'oz'], ['18 lb 0 oz', 288, 0, 'oz'],
    ['1,234.5 lb', 12345, 1, 'lb'], ['1.234,5 kg', 12345, 1, 'kg'], ['1 234,5', 12345, 1, 'lb'], ['1 234 567 g', 1234567, 0, 'g'],
    ['0,500', 500, 3, 'lb'], ['18.625', 18625, 3, 'lb'], ['1.234', 1234, 3, 'lb'], ['1234,567', 1234567, 3, 'lb'],
    ['18 1/2', 185, 1, 'lb'], ['18 1/4 lb', 1825, 2, 'lb'], ['3/8', 375, 3, 'lb'], ['18½', 185, 1, 'lb'], ['18 ½ lb', 185, 1, 'lb'],
    ['18¾lb', 1875, 2, 'lb'], ['18⅝', 18625, 3, 'lb'], ['5 lb 3 1/2 oz', 835, 1, 'oz'], ['5 lb 3½ oz', 835, 1, 'oz'], ['18 3/16', 181875, 4, 'lb'],
    ['84 lb 1/2', 845, 1, 'lb'], ['84lb½', 845, 1, 'lb'], ['84 lb ¾', 8475, 2, 'lb'], ['84# 1/2', 845, 1, 'lb'], ['84#1/2', 845, 1, 'lb'],
    ['84 lb 10/16', 84625, 3, 'lb'], ['84 lb, 8/16', 845, 1, 'lb'], ['84 lbs. 1/4', 8425, 2, 'lb'], ['84 lb and ½', 845, 1, 'lb'], ['0 lb 3/16', 1875, 4, 'lb'],
    ['84 lb 1/2 oz', 13445, 1, 'oz'], ['84 lb 3 1/2', 13475, 1, 'oz'], ['84lb 1½', 13455, 1, 'oz'],
    ['12 lb. 8 oz.', 200, 0, 'oz'], ['12 lb and 8 oz', 200, 0, 'oz'], ['12 pounds and 8 ounces', 200, 0, 'oz'], ['12 lb & 8', 200, 0, 'oz'],
    ['+84', 84, 0, 'lb'], ['+ 84.5 kg', 845, 1, 'kg'], ['１２.５', 125, 1, 'lb'],
  ])('reads "%s" as %i at %i decimals of %s', (typed, digits, decimals, unit) => {
    expect(parseReading(typed, 'lb')).toEqual({ digits, decimals, unit, typed: typed.trim() });
  }); // prettier-ignore

  it('reads "0,500" as one half, not as five hundred', () => {
    expect(readingGrams(parseReading('0,500 kg', 'lb'))).toBe(500);
    expect(() => parseReading('0.500,5', 'kg')).toThrow(
      expect.objectContaining({ code: 'reading.unreadable' }),
    );
  });

  it('applies the shop unit only to a bare number', () => {
    expect(parseReading('84.6', 'kg').unit).toBe('kg');
    expect(parseReading('84.6 lb', 'kg').unit).toBe('lb');
  });

  it.each([
    ['', 'reading.empty'], ['   ', 'reading.empty'], ['abc', 'reading.unreadable'], ['lb', 'reading.unreadable'], ['84 stone', 'reading.unreadable'],
    ['84..6', 'reading.unreadable'], ['8.4.6', 'reading.unreadable'], ['84 6', 'reading.unreadable'], ['1e3', 'reading.unreadable'],
    ['NaN', 'reading.unreadable'], ['Infinity', 'reading.unreadable'], ['0x10', 'reading.unreadable'], ['84 lb kg', 'reading.unreadable'],
    ['84.5 lb 3 oz', 'reading.unreadable'], ['84.5 lb 1/2', 'reading.unreadable'], ['84 lb .5', 'reading.unreadable'], ['12 lb.8', 'reading.unreadable'],
    ['++5', 'reading.unreadable'], ['.', 'reading.unreadable'], ['1,2,3', 'reading.unreadable'], ['1 234 lb 8 oz', 'reading.unreadable'], ['12 lb 3 412 oz', 'reading.unreadable'],
    ['1/3', 'reading.fraction'], ['84 lb 1/3', 'reading.fraction'], ['84 lb ⅔', 'reading.fraction'], ['84 lb 1/32', 'reading.fraction'], ['84 lb 16/16', 'reading.fraction'],
    ['18 3/2', 'reading.fraction'], ['18 1/0', 'reading.fraction'], ['18 3/10', 'reading.fraction'],
    ['12²', 'reading.odd-digit'], ['12①', 'reading.odd-digit'], ['12₂ lb', 'reading.odd-digit'], ['①', 'reading.odd-digit'], ['1⑵', 'reading.odd-digit'], ['12Ⅳ', 'reading.odd-digit'], ['𝟏𝟐', 'reading.odd-digit'], ['١٢', 'reading.odd-digit'],
    ['1,234', 'reading.ambiguous'], ['12,345 lb', 'reading.ambiguous'], ['3 412', 'reading.ambiguous'], ['12 125', 'reading.ambiguous'], ['0 412 kg', 'reading.ambiguous'], ['1\u202f234', 'reading.ambiguous'],
    ['-5', 'reading.negative'], ['−5', 'reading.negative'], ['–5 lb', 'reading.negative'],
    ['0', 'reading.zero'], ['0.00', 'reading.zero'], ['0 lb 0 oz', 'reading.zero'],
    ['1.23456', 'reading.too-fine'], ['84 lb 16 oz', 'reading.ounces'], ['84 lb 20.5', 'reading.ounces'],
    ['99999999', 'reading.too-heavy'], ['10001 kg', 'reading.too-heavy'], ['99999999999999999999', 'reading.too-heavy'],
  ])('refuses "%s" as %s', (typed, code) => {
    expect(() => parseReading(typed, 'lb')).toThrow(expect.objectContaining({ name: 'ValidationError', code, field: 'typed' }));
  }); // prettier-ignore

  it('offers both meanings of an ambiguous comma', () => {
    expect(() => parseReading('1,234', 'lb')).toThrow(
      expect.objectContaining({ with: { typed: '1,234', whole: '1234', decimal: '1.234' } }),
    );
  });

  it.each([
    ['3 412', '3412', '3.412'],
    ['12 125', '12125', '12.125'],
    ['0 412 kg', '412 kg', '0.412 kg'],
    ['12,345 lb', '12345 lb', '12.345 lb'],
  ])('asks about "%s" and offers both meanings as they can be typed', (typed, whole, decimal) => {
    expect(() => parseReading(typed, 'lb')).toThrow(
      expect.objectContaining({ code: 'reading.ambiguous', with: { typed, whole, decimal } }),
    );
    expect(readingGrams(parseReading(whole, 'lb')) / readingGrams(parseReading(decimal, 'lb'))).toBeCloseTo(1000, 9);
  }); // prettier-ignore

  it('reads every sixteenth of a pound exactly, in any notation', () => {
    const letters: Record<string, string> = { '1/2': '½', '1/4': '¼', '3/4': '¾', '1/8': '⅛', '3/8': '⅜', '5/8': '⅝', '7/8': '⅞' };
    for (let sixteenths = 1; sixteenths < 16; sixteenths++)
      for (const below of [2, 4, 8, 16]) {
        const above = (sixteenths * below) / 16;
        if (!Number.isInteger(above)) continue;
        const fraction = `${above}/${below}`;
        const letter = letters[fraction];
        const ways = [`84 ${fraction}`, `84 ${fraction} lb`, `84 lb ${fraction}`, `84# ${fraction}`, ...(letter ? [`84${letter}`, `84lb${letter}`] : [])];
        for (const typed of ways) {
          const { digits, decimals, unit } = parseReading(typed, 'lb');
          expect([digits / 10 ** decimals, unit, typed]).toEqual([84 + sixteenths / 16, 'lb', typed]);
        }
      }
  }); // prettier-ignore

  it('never joins digits across a space that may be a lost decimal point', () => {
    const typed = fc
      .tuple(fc.integer({ min: 0, max: 9999 }), fc.integer({ min: 0, max: 999 }), fc.constantFrom('', ' lb', 'kg'))
      .map(([whole, last, unit]) => `${whole} ${String(last).padStart(3, '0')}${unit}`);
    fc.assert(
      fc.property(typed, (text) => {
        expect(() => parseReading(text, 'lb')).toThrow(expect.objectContaining({ code: 'reading.ambiguous' }));
      }),
      { numRuns: 1000 },
    );
  }); // prettier-ignore

  it('gives a weight or a typed error for any text', () => {
    const noise = fc.string({ unit: fc.constantFrom(...'0123456789 .,/½²①+lbozkg#-'), maxLength: 14 });
    fc.assert(
      fc.property(fc.oneof(noise, fc.string()), (text) => {
        try {
          const reading = parseReading(text, 'lb');
          expect(Number.isSafeInteger(reading.digits) && reading.digits > 0).toBe(true);
          expect(readingGrams(reading)).toBeGreaterThan(0);
        } catch (problem) {
          expect(problem).toMatchObject({ name: 'ValidationError' });
        }
      }),
      { numRuns: 5000 },
    );
  });
});

describe('a reading', () => {
  const shown = fc.record({
    digits: fc.integer({ min: 1, max: 9_999_999 }),
    decimals: fc.integer({ min: 0, max: 4 }),
    unit: fc.constantFrom<MassUnit>('lb', 'oz', 'kg', 'g'),
  });

  it('is parsed from its formatted text, with either decimal mark', () => {
    fc.assert(
      fc.property(shown, fc.constantFrom('.', ','), (one, mark) => {
        const plain = (one.digits / 10 ** one.decimals).toFixed(one.decimals);
        const text = `${mark === ',' && one.decimals !== 3 ? plain.replace('.', ',') : plain} ${one.unit}`;
        fc.pre(readingGrams(one) <= 1e7);
        expect(parseReading(text, 'lb')).toEqual({ ...one, typed: text });
      }),
      { numRuns: 1000 },
    );
  });

  it('does not drift: a thousand pounds and ounces add up to whole ounces', () => {
    const pair = fc.tuple(fc.nat({ max: 500 }), fc.nat({ max: 15 })).filter(([lb, oz]) => lb + oz > 0);
    fc.assert(
      fc.property(pair, ([lb, oz]) => {
        const reading = parseReading(`${lb} lb ${oz} oz`, 'kg');
        expect(reading).toMatchObject({ digits: 16 * lb + oz, decimals: 0, unit: 'oz' });
        expect(readingGrams(reading)).toBe((16 * lb + oz) * 28.349523125);
      }),
      { numRuns: 1000 },
    );
    const tenths = Array.from({ length: 1000 }, () => parseReading('0.1 lb', 'lb'));
    expect(tenths.reduce((sum, { digits }) => sum + digits, 0)).toBe(1000);
  });

  it('reports the step that it was read to', () => {
    expect(readingStepGrams(parseReading('18.6 lb', 'kg'))).toBeCloseTo(45.359237, 12);
    expect(readingStepGrams(parseReading('18 kg', 'lb'))).toBe(1000);
  });
});
