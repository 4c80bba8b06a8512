import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  chiSquareCdf,
  chiSquareQuantile,
  normalCdf,
  normalQuantile,
  tQuantile,
} from '../../../src/core/stats/distributions.ts';

const share = fc.double({ min: 0.001, max: 0.999, noNaN: true });
const df = fc.integer({ min: 1, max: 200 });

describe('distributions', () => {
  it('go there and back', () => {
    fc.assert(
      fc.property(share, df, (p, degrees) => {
        expect(normalCdf(normalQuantile(p))).toBeCloseTo(p, 12);
        expect(chiSquareCdf(chiSquareQuantile(p, degrees), degrees)).toBeCloseTo(p, 10);
      }),
      { numRuns: 1000 },
    );
  });

  it('are symmetric where they should be', () => {
    fc.assert(
      fc.property(share, df, (p, degrees) => {
        expect(normalQuantile(p) + normalQuantile(1 - p)).toBeCloseTo(0, 10);
        const t = tQuantile(p, degrees);
        expect(Math.abs(t + tQuantile(1 - p, degrees))).toBeLessThan(1e-9 * Math.max(1, Math.abs(t)));
      }),
      { numRuns: 1000 },
    );
  });

  it('have the closed forms of one and two degrees of freedom', () => {
    fc.assert(
      fc.property(share, fc.double({ min: 0, max: 50, noNaN: true }), (p, x) => {
        const cauchy = Math.tan(Math.PI * (p - 0.5));
        expect(Math.abs(tQuantile(p, 1) - cauchy)).toBeLessThan(1e-9 * Math.max(1, Math.abs(cauchy)));
        expect(chiSquareCdf(x, 2)).toBeCloseTo(1 - Math.exp(-x / 2), 12);
      }),
      { numRuns: 1000 },
    );
  });

  it.each([
    ['share.out-of-range', () => normalQuantile(0)],
    ['share.out-of-range', () => normalQuantile(Number.NaN)],
    ['share.out-of-range', () => tQuantile(1, 3)],
    ['share.out-of-range', () => chiSquareQuantile(1.2, 3)],
    ['degrees.not-positive', () => tQuantile(0.9, 0)],
    ['degrees.not-positive', () => chiSquareCdf(1, Number.NaN)],
    ['degrees.not-positive', () => chiSquareQuantile(0.9, Infinity)],
    ['number.not-finite', () => normalCdf(Infinity)],
    ['number.not-finite', () => chiSquareCdf(Number.NaN, 2)],
  ])('answer %s', (code, ask) => {
    expect(ask).toThrow(expect.objectContaining({ code }));
  });
});
