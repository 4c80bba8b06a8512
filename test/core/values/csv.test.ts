import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unescapeFormulas, csvLine, toCsv } from '../../../src/core/values/csv.ts';

describe('toCsv', () => {
  it('quotes fields that would break a row', () =>
    expect(
      toCsv(
        ['a', 'b'],
        [
          ['1,5', 'say "x"\nthen'],
          [null, 2.5],
        ],
      ),
    ).toBe('a,b\r\n"1,5","say ""x""\nthen"\r\n,2.5\r\n'));

  it.each(['=1+1', '+49 30 1', '-', '@sum', "'=1+1", "''@"])('makes %s safe to open, reversibly', (text) => {
    const cell = csvLine([text]).replace(/\r\n$/, '');
    expect(cell).toBe(`'${text}`);
    expect(unescapeFormulas(cell)).toBe(text);
  });

  it.each(["O'Neil", "'s-Gravenhage", '18.6 lb', ''])('leaves %s unchanged', (text) => {
    expect(csvLine([text])).toBe(`${text}\r\n`);
    expect(unescapeFormulas(text)).toBe(text);
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
    expect(unescapeFormulas(safe)).toBe(text);
  });

  it('never starts a cell with a formula, reversibly', () =>
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom("'", '=', '+', '-', '@', '\t', '\n', ';', '＝', 'a', '1') }),
        (text) => {
          const cell = csvLine([text]).slice(0, -2).replace(/^"|"$/g, '');
          expect(cell).not.toMatch(/(^|[;\t\r\n])[=+\-@\t\r＝]/);
          expect(unescapeFormulas(cell)).toBe(text);
        },
      ),
    ));
});
