import { describe, expect, it } from 'vitest';
import { decodeSheet, guessEncoding, guessSeparator } from '../../../src/core/sheet/text.ts';
import { guessDateOrder, guessDecimal, readDay, readWeight } from '../../../src/core/sheet/values.ts';

const latin = (text: string) => Uint8Array.from([...text].map((letter) => letter.charCodeAt(0)));
const utf16 = (text: string, bigEndian = false) => {
  const bytes = Buffer.from(text, 'utf16le');
  return bigEndian ? bytes.swap16() : bytes;
};

describe('encodings', () => {
  it.each([
    ['utf-8', Buffer.from('Name;Gewicht\nJürgen Weiß 🦌;84,6')],
    ['utf-8', Buffer.from('\uFEFFName;Gewicht\nJürgen Weiß 🦌;84,6')],
    ['utf-16le', utf16('\uFEFFName;Gewicht\nJürgen Weiß 🦌;84,6')],
    ['utf-16le', utf16('Name;Gewicht\nJürgen Weiß 🦌;84,6')],
    ['utf-16be', utf16('\uFEFFName;Gewicht\nJürgen Weiß 🦌;84,6', true)],
    ['utf-16be', utf16('Name;Gewicht\nJürgen Weiß 🦌;84,6', true)],
  ] as const)('reads %s', (encoding, bytes) => {
    expect(guessEncoding(bytes)).toBe(encoding);
    expect(decodeSheet(bytes, encoding)).toBe('Name;Gewicht\nJürgen Weiß 🦌;84,6');
  });

  it('falls back to Windows-1252 for invalid UTF-8', () => {
    const bytes = latin('Name\nJ\u00fcrgen Wei\u00df \u0080');
    expect(guessEncoding(bytes)).toBe('windows-1252');
    expect(decodeSheet(bytes, 'windows-1252')).toBe('Name\nJürgen Weiß €');
  });

  it('tolerates a stray zero byte', () => expect(guessEncoding(Buffer.from('a,b\0,c\n1,2,3'))).toBe('utf-8'));

  it.each([
    ['sheet.empty', new Uint8Array()],
    ['sheet.not-text', latin('PK\u0003\u0004...')],
    ['sheet.not-text', latin('\u00d0\u00cf\u0011\u00e0')],
  ])('refuses with %s', (code, bytes) => expect(() => guessEncoding(bytes)).toThrow(code));
});

describe('separators', () => {
  it.each([
    [',', 'a,b,c\n1,2,3'],
    [';', 'Name;Gewicht;Datum\nA;84,6;4.11.2023\nB;71,25;5.11.2023'],
    ['\t', 'a\tb\n1,5\t2\n"x,y"\t3'],
    [',', 'one column\nof words'],
    [';', '"a, b, c";d\n"e, f, g";h'],
  ])('finds %j', (separator, text) => expect(guessSeparator(text)).toBe(separator));
});

describe('readDay', () => {
  it.each([
    ['2023-11-04', 'day first', '2023-11-04'],
    ['2023/1/4', 'day first', '2023-01-04'],
    ['11/4/2023', 'month first', '2023-11-04'],
    ['11/4/2023', 'day first', '2023-04-11'],
    ['4.11.23', 'day first', '2023-11-04'],
    ['4-11-99', 'day first', '1999-11-04'],
    ['11/4/2023 08:30', 'month first', '2023-11-04'],
    ['2023-11-04T00:00:00Z', 'month first', '2023-11-04'],
    ['Nov 4, 2023', 'day first', '2023-11-04'],
    ['4 November 2023', 'month first', '2023-11-04'],
    ['Sat, Nov 4 2023', 'month first', '2023-11-04'],
    ['4-Nov-23', 'month first', '2023-11-04'],
    ['29 Feb 2024', 'month first', '2024-02-29'],
  ] as const)('%s, %s, is %s', (text, order, day) => expect(readDay(text, order, 2026)).toBe(day));

  it.each(['', 'yesterday', '13/13/2023', '2023-02-29', '0/1/2023', '45244', '2023', 'Foo 3, 2023', '4/11'])(
    'refuses %j',
    (text) => expect(() => readDay(text, 'month first', 2026)).toThrow('sheet.date'),
  );

  it('infers the order from numbers above 12', () => {
    expect(guessDateOrder(['1/2/2023', '3/14/2023'])).toBe('month first');
    expect(guessDateOrder(['1/2/2023', '14/3/2023'])).toBe('day first');
    expect(guessDateOrder(['1.2.2023'])).toBe('day first');
    expect(guessDateOrder(['1/2/2023', '2023-01-14'])).toBe(null);
  });
});

describe('readWeight', () => {
  it.each([
    ['84.6', 'lb', '.', 846, 1, 'lb'],
    ['84,6', 'kg', ',', 846, 1, 'kg'],
    ['1,234', 'lb', '.', 1234, 0, 'lb'],
    ['1.234', 'kg', ',', 1234, 0, 'kg'],
    ['1,234', 'kg', ',', 1234, 3, 'kg'],
    ['1.234', 'kg', '.', 1234, 3, 'kg'],
    ['1.234,5', 'kg', ',', 12345, 1, 'kg'],
    ['1,234.5 lbs', 'kg', '.', 12345, 1, 'lb'],
    ['84 lb 10 oz', 'kg', '.', 1354, 0, 'oz'],
    ['38,4 kg', 'lb', ',', 384, 1, 'kg'],
  ] as const)('%s (%s, %s)', (text, unit, decimal, digits, decimals, as) =>
    expect(readWeight(` ${text} `, unit, decimal)).toEqual({ digits, decimals, unit: as, typed: text }),
  );

  it.each(['-5', 'heavy', '1,2,3', '=84.6'])('refuses %s', (text) =>
    expect(() => readWeight(text, 'lb', '.')).toThrow(/reading\./),
  );

  it('infers the decimal mark', () => {
    expect(guessDecimal(['84,6', '71', '1.234,5'])).toBe(',');
    expect(guessDecimal(['84.6', '1,234'])).toBe('.');
    expect(guessDecimal(['84', '1,234'])).toBe(null);
  });
});
