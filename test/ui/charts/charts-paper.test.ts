import { describe, expect, it } from 'vitest';
import { toCsv } from '../../../src/core/values/csv.ts';
import { wrap } from '../../../src/ui/charts/engine/picture.ts';
import { quantile } from '../../../src/core/stats/quantile.ts';
import { spread } from '../../../src/ui/charts/yields/yield-drawing.ts';

describe('a table as comma-separated text', () => {
  it('quotes commas, quotes and line breaks by RFC 4180, and ends every row with CRLF', () => {
    expect(toCsv(['ticket', 'note'], [['26-0147', 'a, "b"\nc']])).toBe(
      'ticket,note\r\n26-0147,"a, ""b""\nc"\r\n',
    );
  });

  it('leaves unknown figures empty and writes known ones in full', () => {
    expect(toCsv(['a', 'b', 'c'], [[null, 0.41213, 0]])).toBe('a,b,c\r\n,0.41213,0\r\n');
  });

  it.each(['=1+1', '+1', '-1', '@x'])('never hands a spreadsheet the formula %s', (text) => {
    expect(toCsv(['x'], [[text]])).toBe(`x\r\n'${text}\r\n`);
  });
});

describe('quantiles (Hyndman & Fan 1996, definition 7)', () => {
  it.each([
    [[1, 2, 3, 4], 0.25, 1.75],
    [[1, 2, 3, 4], 0.5, 2.5],
    [[5], 0.9, 5],
    [[1, 2, 3], 1, 3],
  ])('of %j at %d is %d', (values, p, expected) => {
    expect(quantile(values, p)).toBeCloseTo(expected, 12);
  });

  it('are refused without values', () => {
    expect(() => quantile([], 0.5)).toThrow(RangeError);
  });
});

describe('the spread of marks across their row', () => {
  const places = Array.from({ length: 200 }, (_, i) => spread(i));

  it('stays inside the row and never puts two marks in one position', () => {
    expect(Math.min(...places)).toBeGreaterThanOrEqual(-0.5);
    expect(Math.max(...places)).toBeLessThan(0.5);
    expect(new Set(places).size).toBe(200);
  });

  it('fills the row evenly: no gap wider than two even shares', () => {
    const sorted = places.toSorted((a, b) => a - b);
    const gaps = sorted.slice(1).map((place, i) => place - (sorted[i] as number));
    expect(Math.max(...gaps)).toBeLessThan(2 / 200);
  });
});

describe('breaking a sentence into lines', () => {
  const pen = { measureText: (text: string) => ({ width: text.length }) as TextMetrics };

  it('keeps every word, in order, and no line over the width', () => {
    const text = 'Mule deer: the middle of 23 animals is 52% take-home, inside the published range.';
    const lines = wrap(pen, text, 24);
    expect(lines.join(' ')).toBe(text);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(24);
  });

  it('gives a word wider than the sheet a line of its own', () => {
    expect(wrap(pen, 'a extraordinarily b', 6)).toEqual(['a', 'extraordinarily', 'b']);
  });
});
