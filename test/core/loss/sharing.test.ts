import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shareOutput, shareProducts } from '../../../src/core/loss/share-output.ts';
import { finishedFrom, trimNeeded } from '../../../src/core/loss/trim-needed.ts';

const throwing = (code: string) => expect.objectContaining({ name: 'ValidationError', code });
const TENTH_OF_A_POUND = 45.359237;

describe('the output of a pooled batch', () => {
  it('is divided by what each put in, with the figures written out', () => {
    // 41.3 lb of 20, 15 and 30 lb: 413 tenths, quotas 127.08, 95.31 and 190.62; the one left goes to .62.
    const shares = shareOutput(413 * TENTH_OF_A_POUND, TENTH_OF_A_POUND, [20, 15, 30]);
    expect(shares.map(({ steps }) => steps)).toEqual([127, 95, 191]);
    expect(shares[2]?.grams).toBeCloseTo(19.1 * 453.59237, 6);
  });

  it('adds up exactly, and nobody is a step off from a just share', () => {
    const input = fc.oneof(fc.constant(0), fc.double({ min: 0.1, max: 1e5, noNaN: true }));
    const step = fc.constantFrom(1, 5, 10, TENTH_OF_A_POUND, TENTH_OF_A_POUND / 2);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100_000 }), step, fc.array(input, { minLength: 1, maxLength: 30 }), (total, by, inputs) => {
        const all = inputs.reduce((sum, one) => sum + one, 0);
        fc.pre(all > 0);
        const shares = shareOutput(total * by, by, inputs);
        expect(shares.reduce((sum, { steps }) => sum + steps, 0)).toBe(total);
        shares.forEach(({ steps }, i) => {
          expect(Math.abs(steps - (total * (inputs[i] ?? 0)) / all)).toBeLessThan(1 + 1e-6);
          if (inputs[i] === 0) expect(steps).toBe(0);
        });
      }),
      { numRuns: 1000 },
    ); // prettier-ignore
  });

  it('of several products adds up for each, and the rounding evens out', () => {
    const counts = fc.array(fc.integer({ min: 0, max: 500 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(counts, fc.array(fc.integer({ min: 1, max: 1000 }), { minLength: 1, maxLength: 8 }), (steps, inputs) => {
        const rows = shareProducts(steps.map((one) => one * 10), 10, inputs);
        rows.forEach((row, i) => expect(row.reduce((sum, one) => sum + one.steps, 0)).toBe(steps[i]));
        const [all, total] = [steps, inputs].map((list) => list.reduce((sum, one) => sum + one, 0)) as [number, number];
        inputs.forEach((one, i) => {
          const got = rows.reduce((sum, row) => sum + (row[i]?.steps ?? 0), 0);
          expect(Math.abs(got - (all * one) / total)).toBeLessThan(inputs.length);
        });
      }),
      { numRuns: 500 },
    ); // prettier-ignore
  });

  it('is refused between two steps, below zero, and where nobody put anything in', () => {
    expect(() => shareOutput(1005, 10, [1])).toThrow(throwing('share.not-on-step'));
    expect(() => shareOutput(-10, 10, [1])).toThrow(throwing('grams.negative'));
    expect(() => shareOutput(10, 0, [1])).toThrow(throwing('step.not-positive'));
    expect(() => shareOutput(10, 10, [0, 0])).toThrow(throwing('weights.all-zero'));
    expect(() => shareProducts([10, 15], 10, [1])).toThrow(throwing('share.not-on-step'));
  });
});

describe('the trim that a finished weight takes', () => {
  const yields = { low: 0.58, middle: 0.625, high: 0.67 };
  it('is the weight over the yield: 10 lb of sticks take about 16 lb', () => {
    const { low, middle, high } = trimNeeded(10, { addedShare: 0, trimShare: 1, yields });
    expect([low, middle, high].map((pounds) => pounds.toFixed(2))).toEqual(['14.93', '16.00', '17.24']);
    // With 5 % of water and seasoning and four tenths of pork: 16 ÷ 1.05 × 0.6.
    expect(trimNeeded(10, { addedShare: 0.05, trimShare: 0.6, yields }).middle).toBeCloseTo(9.142857, 6);
  });

  it('comes to that weight again', () => {
    const share = fc.double({ min: 0.05, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, share, share, (addedShare, trimShare, middle) => {
        const made = { addedShare, trimShare, yields: { low: middle * 0.9, middle, high: middle } };
        expect(finishedFrom(trimNeeded(1000, made).middle, made).middle).toBeCloseTo(1000, 6);
        expect(finishedFrom(trimNeeded(1000, made).high, made).low).toBeCloseTo(1000, 6);
      }),
    );
  });

  it('is refused for no weight, percentages and yields out of order', () => {
    const made = { addedShare: 0, trimShare: 1, yields };
    expect(() => trimNeeded(0, made)).toThrow(throwing('grams.not-positive'));
    expect(() => trimNeeded(1, { ...made, trimShare: 60 })).toThrow(throwing('share.out-of-range'));
    expect(() => trimNeeded(1, { ...made, addedShare: -1 })).toThrow(throwing('share.out-of-range'));
    expect(() => trimNeeded(1, { ...made, yields: { ...yields, low: 0.9 } })).toThrow(
      throwing('yield.order'),
    );
    expect(() => finishedFrom(1, { ...made, trimShare: 0 })).toThrow(throwing('trim.none'));
  });
});
