/**
 * Line forms as scale makers' manuals publish them in general terms: asked lines with status bytes, framed asked
 * lines with a check character, bare digits, and continuous lines with words for rest and motion. No open standard.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseReading } from '../../../src/core/values/reading.ts';
import { parseScaleLine } from '../../../src/core/scale/line.ts';
import type { MassUnit } from '../../../src/core/values/units.ts';

type Row = [string, string, MassUnit, number, number, boolean | null, 'gross' | 'net' | null];

describe('parseScaleLine', () => {
  it.each<Row>([
    // Continuous, with a word for rest or motion.
    ['ST,GS,+  18.62lb', '18.62 lb', 'lb', 1862, 2, true, 'gross'],
    ['US,GS,+  18.62lb', '18.62 lb', 'lb', 1862, 2, false, 'gross'],
    ['ST,NT,+008.445kg', '8.445 kg', 'kg', 8445, 3, true, 'net'],
    ['ST,NT,-  1.20 kg', '-1.20 kg', 'kg', 120, 2, true, 'net'],
    ['S     1355 g', '1355 g', 'g', 1355, 0, true, null],
    ['S S    100.00 g', '100.00 g', 'g', 10000, 2, true, null],
    ['S D    100.00 g', '100.00 g', 'g', 10000, 2, false, null],
    ['  12.5 oz  ST', '12.5 oz', 'oz', 125, 1, true, null],
    ['U  18.62 lb', '18.62 lb', 'lb', 1862, 2, false, null],
    ['  18.62 lb ?', '18.62 lb', 'lb', 1862, 2, false, null],
    ['STABLE NET 18.62 LB', '18.62 lb', 'lb', 1862, 2, true, 'net'],
    // Without any word: nobody knows whether it rests.
    ['  18.62 lb', '18.62 lb', 'lb', 1862, 2, null, null],
    ['0018.60 LB', '18.60 lb', 'lb', 1860, 2, null, null],
    ['18.62 lbs G', '18.62 lb', 'lb', 1862, 2, null, 'gross'],
    ['GROSS: 18.62 Kg', '18.62 kg', 'kg', 1862, 2, null, 'gross'],
    ['8,445 kg', '8.445 kg', 'kg', 8445, 3, null, null],
    ['.50 lb', '0.50 lb', 'lb', 50, 2, null, null],
    ['- 0.00 lb', '0.00 lb', 'lb', 0, 2, null, null],
    // Pounds and ounces.
    ['1 lb 5.3 oz', '1 lb 5.3 oz', 'oz', 213, 1, null, null],
    ['ST -1lb 05.3oz', '-1 lb 5.3 oz', 'oz', 213, 1, true, null],
    // Asked, with status bytes behind it: at rest, at zero, in motion, something else.
    ['\n 18.62lb\r\n00\r', '18.62 lb', 'lb', 1862, 2, true, null],
    ['\n  0.00lb\r\n20\r', '0.00 lb', 'lb', 0, 2, true, null],
    ['\n 18.62lb\r\nS10\r\x03', '18.62 lb', 'lb', 1862, 2, false, null],
    ['\n 18.62lb\r\n@0\r'.replace('@', '4'), '18.62 lb', 'lb', 1862, 2, false, null],
    // Framed, with a check character behind the unit.
    ['\x01\x02S+0018.6LBv\x03\x04', '18.6 lb', 'lb', 186, 1, true, null],
    ['\x01\x02U-0018.6KGt\x03\x04', '-18.6 kg', 'kg', 186, 1, false, null],
  ])('reads %j as %s', (text, typed, unit, digits, decimals, stable, basis) => {
    const sign = typed.startsWith('-') ? -1 : 1;
    expect(parseScaleLine(text)).toEqual({
      typed, unit, digits, decimals, stable, basis, sign, overload: false,
    }); // prettier-ignore
  });

  it.each<[string, 'over' | 'under', boolean | null]>([
    ['ST,OL,', 'over', true],
    ['OL', 'over', null],
    ['US,+OL   lb', 'over', false],
    ['--------', 'over', null],
    ['ST,GS,- - - - lb', 'over', true],
    ['ST,UL', 'under', true],
    ['______', 'under', null],
    ['\n 99.98lb\r\n02\r', 'over', false],
    ['\n-99.98lb\r\n01\r', 'under', false],
  ])('says of %j that it is %s the range', (text, range, stable) =>
    expect(parseScaleLine(text)).toEqual({ overload: true, range, stable }),
  );

  it.each([
    ['', 'scale.empty'],
    ['  \r\n', 'scale.empty'],
    ['\xff8.62 lb', 'scale.noise'],
    ['18\x8062 lb', 'scale.noise'],
    ['1\x008.62 lb', 'scale.noise'],
    ['ST', 'scale.no-weight'],
    ['lb', 'scale.no-weight'],
    ['18.62', 'scale.no-unit'],
    ['00', 'scale.no-unit'],
    ['18.62 G', 'scale.no-unit'],
    ['001862 lb', 'scale.no-point'],
    ['\x01\x02S+001862LBv\x03\x04', 'scale.no-point'],
    ['11862 lb', 'scale.no-point'],
    ['G 18.62 lb N 18.12 lb', 'scale.ambiguous'],
    ['12:45 18.62 lb', 'scale.ambiguous'],
    ['1.234,5 kg', 'scale.ambiguous'],
    ['18.62 lb 3 lb', 'scale.ambiguous'],
    ['T 0.50 lb', 'scale.unknown-word'],
    ['0.50 lb TARE', 'scale.unknown-word'],
    ['12 pcs', 'scale.unknown-word'],
    ['$ 18.62 lb', 'scale.unknown-word'],
    ['18.62 lb\r\nGROSS\r\n', 'scale.unknown-word'],
    ['1 lb 16 oz', 'reading.ounces'],
    ['1.23456 kg', 'reading.too-fine'],
    ['99999.5 lb', 'reading.too-heavy'],
    ['1234567890.5 lb', 'reading.too-heavy'],
  ])('refuses %j as %s', (text, code) =>
    expect(() => parseScaleLine(text)).toThrow(expect.objectContaining({ name: 'ValidationError', code })),
  );

  it('names the unknown word', () =>
    expect(() => parseScaleLine('TARE 0.50 lb')).toThrow(
      expect.objectContaining({ with: { line: 'TARE 0.50 lb', word: 'TARE' } }),
    ));

  it('shows a text that parses to the same reading when typed', () => {
    const decimals = fc.integer({ min: 0, max: 4 });
    const units = fc.constantFrom<MassUnit>('lb', 'kg', 'oz', 'g');
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9999 }),
        decimals,
        units,
        fc.boolean(),
        (count, places, unit, flagged) => {
          const line = `${flagged ? 'ST,GS,+' : ''}${(count / 10 ** places).toFixed(places).padStart(8)} ${unit}\r\n`;
          const read = parseScaleLine(line);
          if (read.overload) throw new Error('no weight');
          const { digits, decimals: shown, unit: said, typed } = read;
          expect(parseReading(typed, 'kg')).toEqual({ digits, decimals: shown, unit: said, typed });
          expect([digits, shown, said]).toEqual([count, places, unit]);
        },
      ),
      { numRuns: 1000 },
    );
    expect(parseReading('1 lb 5.3 oz', 'lb')).toMatchObject({ digits: 213, decimals: 1, unit: 'oz' });
  });

  it('gives a weight, an overload or a typed error for any bytes', () => {
    const text = fc.oneof(
      fc.string({ unit: fc.constantFrom(...'STUGNOL0189.,+- lbkgoz?\r\n\x02\x03\xff'), maxLength: 20 }),
      fc.string({ unit: 'binary', maxLength: 20 }),
    );
    fc.assert(
      fc.property(text, (line) => {
        try {
          const read = parseScaleLine(line);
          if (!read.overload) expect(Number.isSafeInteger(read.digits) && read.digits >= 0).toBe(true);
        } catch (error) {
          expect(error).toMatchObject({ name: 'ValidationError' });
        }
      }),
      { numRuns: 1500 },
    );
  });
});
