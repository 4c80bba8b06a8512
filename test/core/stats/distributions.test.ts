import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalCdf, normalQuantile, tQuantile } from '../../../src/core/stats/distributions.ts';

const share = fc.double({ min: 0.001, max: 0.999, noNaN: true });
const df = fc.integer({ min: 1, max: 200 });

describe('distributions', () => {
  it('are inverse to their quantiles', () => {
    fc.assert(
      fc.property(share, (p) => {
        expect(normalCdf(normalQuantile(p))).toBeCloseTo(p, 12);
      }),
      { numRuns: 1000 },
    );
  });

  it('are symmetric where expected', () => {
    fc.assert(
      fc.property(share, df, (p, degrees) => {
        expect(normalQuantile(p) + normalQuantile(1 - p)).toBeCloseTo(0, 10);
        const t = tQuantile(p, degrees);
        expect(Math.abs(t + tQuantile(1 - p, degrees))).toBeLessThan(1e-9 * Math.max(1, Math.abs(t)));
      }),
      { numRuns: 1000 },
    );
  });

  it('match the closed form of one degree of freedom', () => {
    fc.assert(
      fc.property(share, (p) => {
        const cauchy = Math.tan(Math.PI * (p - 0.5));
        expect(Math.abs(tQuantile(p, 1) - cauchy)).toBeLessThan(1e-9 * Math.max(1, Math.abs(cauchy)));
      }),
      { numRuns: 1000 },
    );
  });

  it.each([
    ['share.out-of-range', () => normalQuantile(0)],
    ['share.out-of-range', () => normalQuantile(Number.NaN)],
    ['share.out-of-range', () => tQuantile(1, 3)],
    ['degrees.not-positive', () => tQuantile(0.9, 0)],
    ['number.not-finite', () => normalCdf(Infinity)],
  ])('answer %s', (code, ask) => {
    expect(ask).toThrow(expect.objectContaining({ code }));
  });
});
