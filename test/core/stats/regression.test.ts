import { Matrix, QrDecomposition } from 'ml-matrix';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLine } from '../../../src/core/stats/regression.ts';

const number = fc.double({ min: -1e4, max: 1e4, noNaN: true });
/** Whole xs 3 apart at least once, so that the line has a direction. */
const points = fc
  .array(fc.tuple(fc.integer({ min: -500, max: 500 }), number), { minLength: 3, maxLength: 40 })
  .filter((all) => new Set(all.map(([x]) => x)).size > 1);
const xsOf = (all: [number, number][]) => all.map(([x]) => x);
const ysOf = (all: [number, number][]) => all.map(([, y]) => y);

describe('fitLine', () => {
  it('fits the worked example', () => {
    const line = fitLine(Object.freeze([1, 2, 3, 4]), Object.freeze([2, 4, 6, 9]));
    expect(line.intercept).toBeCloseTo(-0.5, 12);
    expect(line.slope).toBeCloseTo(2.3, 12);
    expect(line.residualSd).toBeCloseTo(Math.sqrt(0.3 / 2), 12); // residuals .2 -.1 -.4 .3: squares sum to 0.3
  });

  it('agrees with a QR solution of the plain design matrix', () => {
    fc.assert(
      fc.property(points, (all) => {
        const design = new Matrix(all.map(([x]) => [1, x]));
        const [intercept, slope] = new QrDecomposition(design)
          .solve(Matrix.columnVector(ysOf(all)))
          .getColumn(0);
        const line = fitLine(xsOf(all), ysOf(all));
        const size = Math.max(1, ...ysOf(all).map(Math.abs));
        expect(Math.abs(line.slope - (slope as number))).toBeLessThan(1e-9 * size);
        expect(Math.abs(line.intercept - (intercept as number))).toBeLessThan(1e-7 * size);
      }),
      { numRuns: 1000 },
    );
  });

  it('finds an exact line again, with nothing left over', () => {
    fc.assert(
      fc.property(points, fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 }), (all, a, b) => {
        const line = fitLine(
          xsOf(all),
          xsOf(all).map((x) => a + b * x),
        );
        expect(line.intercept).toBeCloseTo(a, 8);
        expect(line.slope).toBeCloseTo(b, 8);
        expect(line.rSquared).toBeCloseTo(1, 8);
      }),
      { numRuns: 1000 },
    );
  });

  it('keeps its digits when the xs are far off and close together', () => {
    const far = [1e9, 1e9 + 1, 1e9 + 2, 1e9 + 3];
    expect(fitLine(far, [2, 4, 6, 9]).slope).toBeCloseTo(2.3, 12);
  });

  it('widens the range away from the middle and with the level', () => {
    fc.assert(
      fc.property(points, fc.double({ min: 0.05, max: 0.9, noNaN: true }), (all, level) => {
        const xs = xsOf(all);
        const line = fitLine(xs, ysOf(all));
        const middle = xs.reduce((sum, x) => sum + x, 0) / xs.length;
        const width = (x: number, at: number) => {
          const { low, mean, high } = line.predict(x, at);
          expect(low).toBeLessThanOrEqual(mean);
          expect(mean).toBeLessThanOrEqual(high);
          // Next to a mean far larger than the scatter, the ends carry only the digits of the mean.
          return { width: high - low, rounding: 4 * Number.EPSILON * Math.abs(mean) };
        };
        const here = width(middle, level);
        for (const wider of [width(middle + 700, level), width(middle, level + 0.05)]) {
          expect(wider.width + wider.rounding).toBeGreaterThanOrEqual(here.width);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('calls equal ys fully explained', () => {
    expect(fitLine([1, 2, 3], [5, 5, 5])).toMatchObject({ slope: 0, intercept: 5, rSquared: 1, slopeSe: 0 });
  });

  it('never answers with something that is not a number', () => {
    const any = fc.array(fc.double(), { maxLength: 6 });
    fc.assert(
      fc.property(any, any, (xs, ys) => {
        try {
          const line = fitLine(xs, ys);
          const numbers = Object.values(line).filter((value) => typeof value === 'number');
          expect(numbers).toHaveLength(6);
          expect(numbers.every(Number.isFinite)).toBe(true);
        } catch (problem) {
          expect(problem).toHaveProperty('code', expect.stringMatching(/^(fit|number)\./));
        }
      }),
      { numRuns: 2000 },
    );
  });

  it.each([
    ['fit.lengths-differ', [1, 2, 3], [1, 2]],
    ['fit.too-few', [1, 2], [1, 2]],
    ['fit.x-all-equal', [2, 2, 2], [1, 2, 3]],
    ['fit.x-all-equal', [0.1 + 0.2, 0.3, 0.3], [1, 2, 3]],
    ['number.not-finite', [1, Number.NaN, 3], [1, 2, 3]],
    ['number.not-finite', [1, 2, 3], [1, 2, Infinity]],
    ['number.too-large', [1e200, 2, 3], [1, 2, 3]],
  ])('answers %s', (code, xs, ys) => {
    expect(() => fitLine(xs, ys)).toThrow(expect.objectContaining({ code }));
  });

  it('answers a bad question to predict', () => {
    const line = fitLine([1, 2, 3], [1, 2, 4]);
    expect(() => line.predict(Number.NaN, 0.9)).toThrow(
      expect.objectContaining({ code: 'number.not-finite' }),
    );
    for (const level of [0, 1, -0.5, 95, Number.NaN]) {
      expect(() => line.predict(2, level)).toThrow(expect.objectContaining({ code: 'share.out-of-range' }));
    }
  });
});
