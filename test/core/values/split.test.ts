import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apportion } from '../../../src/core/values/apportion.ts';
import { splitRows } from '../../../src/core/values/split.ts';

const weights = fc.array(fc.integer({ min: 1, max: 1000 }), { minLength: 1, maxLength: 8 });
const counts = fc.array(fc.nat({ max: 60 }), { minLength: 1, maxLength: 12 });
const sum = (all: readonly number[]) => all.reduce((a, b) => a + b, 0);

describe('splitRows', () => {
  it('carries what one row rounded away to the next', () => {
    expect(splitRows([1, 1, 1], [1, 1])).toEqual([[1, 0], [0, 1], [1, 0]]); // prettier-ignore
    expect(splitRows([7, 7, 7, 7], [0.5, 0.5])).toEqual([[4, 3], [3, 4], [4, 3], [3, 4]]); // prettier-ignore
    expect(splitRows([10], [1, 1, 1])).toEqual([[4, 3, 3]]);
  });

  it('gives away every row, whole and nothing below zero', () => {
    fc.assert(
      fc.property(counts, weights, (rows, shares) => {
        const split = splitRows(rows, shares);
        expect(split.map(sum)).toEqual(rows);
        expect(split.flat().every((one) => Number.isInteger(one) && one >= 0)).toBe(true);
      }),
    );
  });

  it('divides a single row by largest remainders', () => {
    fc.assert(
      fc.property(fc.nat({ max: 500 }), weights, (count, shares) => {
        expect(splitRows([count], shares)).toEqual([apportion(count, shares)]);
      }),
    );
  });

  it('leaves nobody of two more than one package from the share of all rows so far', () => {
    fc.assert(
      fc.property(counts, fc.tuple(fc.integer({ min: 1, max: 99 }), fc.integer({ min: 1, max: 99 })), (rows, shares) => {
        let [given, all] = [0, 0];
        splitRows(rows, shares).forEach(([first = 0], i) => {
          given += first;
          all += rows[i] ?? 0;
          expect(Math.abs(given - (all * shares[0]) / sum(shares))).toBeLessThan(1);
        });
      }),
    ); // prettier-ignore
  });

  it('refuses what cannot be divided', () => {
    expect(() => splitRows([1.5], [1])).toThrow();
    expect(() => splitRows([-1], [1])).toThrow();
    expect(() => splitRows([1], [0, 0])).toThrow();
    expect(() => splitRows([1], [])).toThrow();
  });
});
