import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { individualsChart } from '../../../src/core/stats/control-chart.ts';

const values = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 60 });

describe('individualsChart', () => {
  it('matches the worked example', () => {
    const chart = individualsChart(Object.freeze([10, 12, 11]));
    expect(chart.centre).toBe(11);
    expect(chart.meanMovingRange).toBe(1.5);
    expect(chart.lower).toBeCloseTo(11 - 4.5 / 1.128, 12);
    expect(chart.outside).toEqual([]);
  });

  it('gives the index of the outlier', () => {
    const fat = [0.2, 0.21, 0.2, 0.19, 0.2, 0.21, 0.2, 0.19, 0.34, 0.2, 0.21, 0.2, 0.2, 0.19, 0.2, 0.21];
    expect(individualsChart(fat).outside).toEqual([8]);
  });

  it('shifts and scales with its values', () => {
    fc.assert(
      fc.property(values, fc.integer({ min: -99, max: 99 }), fc.constantFrom(0.5, 2, 8), (all, by, times) => {
        const plain = individualsChart(all);
        const moved = individualsChart(all.map((value) => value * times + by));
        expect(moved.upper).toBeCloseTo(plain.upper * times + by, 8);
        expect(moved.lower).toBeCloseTo(plain.lower * times + by, 8);
        expect(moved.meanMovingRange).toBeCloseTo(plain.meanMovingRange * times, 8);
      }),
      { numRuns: 1000 },
    );
  });

  it('is symmetric under reversal', () => {
    fc.assert(
      fc.property(values, (all) => {
        const back = individualsChart(all.toReversed());
        const there = individualsChart(all);
        expect(back.upper).toBeCloseTo(there.upper, 8);
        expect(back.outside).toEqual(there.outside.map((at) => all.length - 1 - at).toReversed());
      }),
      { numRuns: 1000 },
    );
  });

  it('has no outliers among equal values', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), fc.nat({ max: 50 }), (value, more) => {
        expect(individualsChart(Array<number>(2 + more).fill(value)).outside).toEqual([]);
      }),
      { numRuns: 1000 },
    );
  });

  it.each([
    ['chart.too-few', []],
    ['chart.too-few', [0.2]],
    ['number.not-finite', [0.2, Number.NaN]],
    ['number.not-finite', [0.2, Infinity]],
    ['number.too-large', [-1e308, 1e308]],
  ])('answers %s', (code, bad) => {
    expect(() => individualsChart(bad)).toThrow(expect.objectContaining({ code }));
  });
});
