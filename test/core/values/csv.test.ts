import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asTyped, csvLine, toCsv } from '../../../src/core/values/csv.ts';

describe('toCsv', () => {
  it('quotes what would break a row', () =>
    expect(
      toCsv(
        ['a', 'b'],
        [
          ['1,5', 'say "x"\nthen'],
          [null, 2.5],
        ],
      ),
    ).toBe('a,b\r\n"1,5","say ""x""\nthen"\r\n,2.5\r\n'));

  it.each(['=1+1', '+49 30 1', '-', '@sum', "'=1+1", "''@"])('makes %s safe to open, and back', (text) => {
    const cell = csvLine([text]).replace(/\r\n$/, '');
    expect(cell).toBe(`'${text}`);
    expect(asTyped(cell)).toBe(text);
  });

  it.each(["O'Neil", "'s-Gravenhage", '18.6 lb', ''])('leaves %s alone', (text) => {
    expect(csvLine([text])).toBe(`${text}\r\n`);
    expect(asTyped(text)).toBe(text);
  });

  it.each([
    ['＝1+1', "'＝1+1"],
    ['＋1', "'＋1"],
    ['Smith;=1+1;x', "Smith;'=1+1;x"],
    ['neck\n@sum', "neck\n'@sum"],
    ["a;'-b", "a;''-b"],
  ])('makes %j safe where semicolons separate columns, and back', (text, safe) => {
    const cell = csvLine([text]).replace(/\r\n$/, '');
    expect(cell.replace(/^"|"$/g, '')).toBe(safe);
    expect(asTyped(safe)).toBe(text);
  });

  it('never begins a cell with a formula, and nothing is lost by that', () =>
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom("'", '=', '+', '-', '@', '\t', '\n', ';', '＝', 'a', '1') }),
        (text) => {
          const cell = csvLine([text]).slice(0, -2).replace(/^"|"$/g, '');
          expect(cell).not.toMatch(/(^|[;\t\r\n])[=+\-@\t\r＝]/);
          expect(asTyped(cell)).toBe(text);
        },
      ),
    ));
});
