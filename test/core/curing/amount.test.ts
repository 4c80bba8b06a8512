import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amountToWeigh, cureFor, roundDownToStep } from '../../../src/core/curing/amount.ts';
import { ERYTHORBATE, GROUND, PINK } from './data.ts';

describe('an amount to weigh', () => {
  it('is rounded down to the step, with the decimals of the step', () => {
    expect(roundDownToStep(113.398, 0.5)).toBe(113);
    expect(roundDownToStep(113.999, 1)).toBe(113);
    expect(roundDownToStep(0.3, 0.1)).toBe(0.3);
    expect(roundDownToStep(0, 1)).toBe(0);
  });

  it('is never above what it was rounded from, and less than a step below', () => {
    const step = fc.constantFrom(0.01, 0.1, 0.2, 0.5, 1, 5);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e5, noNaN: true }), step, (grams, by) => {
        const down = roundDownToStep(grams, by);
        expect(down).toBeLessThanOrEqual(grams * (1 + 1e-14) + 1e-14);
        expect(grams - down).toBeLessThan(by * (1 + 1e-9));
        expect(Math.abs(down / by - Math.round(down / by))).toBeLessThan(1e-6);
      }),
      { numRuns: 2000 },
    );
  });

  it('is too fine for a scale whose rounding may change a twentieth of a cure, or a tenth of a seasoning', () => {
    expect(amountToWeigh(19.9, 1, 'down')).toEqual({ exactGrams: 19.9, grams: 19, tooFine: true });
    expect(amountToWeigh(20, 1, 'down').tooFine).toBe(false);
    expect(amountToWeigh(4.9, 1, 'nearest')).toEqual({ exactGrams: 4.9, grams: 5, tooFine: true });
    expect(amountToWeigh(5, 1, 'nearest').tooFine).toBe(false);
    expect(amountToWeigh(0, 1, 'down').tooFine).toBe(false);
  });

  it('cannot be had of a cure that does not hold the agent', () => {
    expect(() => cureFor(100, 'nitrite', ERYTHORBATE, GROUND, 1)).toThrow(expect.objectContaining({ code: 'cure.without-agent' }));
    expect(() => cureFor(100, 'nitrite', PINK, GROUND, 0)).toThrow(expect.objectContaining({ code: 'step.not-positive' }));
    expect(() => roundDownToStep(-1, 1)).toThrow(expect.objectContaining({ code: 'grams.negative' }));
  }); // prettier-ignore
});
