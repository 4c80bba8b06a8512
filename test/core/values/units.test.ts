import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decimalsOf,
  formatAmount,
  fromGrams,
  roundToStep,
  toGrams,
  type MassUnit,
} from '../../../src/core/values/units.ts';

const unit = fc.constantFrom<MassUnit>('lb', 'oz', 'kg', 'g');
const step = fc.constantFrom(0.001, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 5);

describe('conversion', () => {
  it('round-trips', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), unit, (value, one) => {
        const back = fromGrams(toGrams(value, one), one);
        expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-15 * Math.abs(value) + Number.MIN_VALUE);
      }),
      { numRuns: 1000 },
    );
  });

  it('has exactly sixteen ounces per pound', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e5 }), (n) => {
        expect(toGrams(16 * n, 'oz')).toBe(toGrams(n, 'lb'));
      }),
      { numRuns: 1000 },
    );
  });

  it.each([NaN, Infinity, -Infinity])('refuses %f', (value) => {
    for (const convert of [toGrams, fromGrams])
      expect(() => convert(value, 'lb')).toThrow(expect.objectContaining({ code: 'number.not-finite' }));
  });
});

describe('roundToStep', () => {
  it.each([
    [1.005, 0.01, 1.01], [2.675, 0.01, 2.68], [-1.005, 0.01, -1.01], [0.125, 0.05, 0.15], [18.61, 0.02, 18.62], [18.609, 0.02, 18.6],
    [7.5, 5, 10], [7.4, 5, 5], [-0.004, 0.01, 0], [0.25, 0.5, 0.5], [12.5, 1, 13], [1e6 + 0.5, 1, 1_000_001], [0, 0.1, 0],
    [0.3, 0.1, 0.3], [0.1 + 0.2, 0.1, 0.3],
  ])('puts %f in steps of %f at %f', (value, by, expected) => {
    expect(roundToStep(value, by)).toBe(expected);
  }); // prettier-ignore

  it('moves by at most half a step, is idempotent, and symmetric in the sign', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e5, max: 1e5, noNaN: true }), step, (value, by) => {
        const rounded = roundToStep(value, by);
        expect(Math.abs(rounded - value)).toBeLessThanOrEqual(by / 2 + 1e-9);
        expect(roundToStep(rounded, by)).toBe(rounded);
        expect(roundToStep(-value, by)).toBe(rounded === 0 ? 0 : -rounded);
      }),
      { numRuns: 1000 },
    );
  });

  it.each([
    [NaN, 0.1, 'number.not-finite'],
    [1, NaN, 'number.not-finite'],
    [1, 0, 'step.not-positive'],
    [1, -0.1, 'step.not-positive'],
  ])('refuses %f in steps of %f', (value, by, code) => {
    expect(() => roundToStep(value, by)).toThrow(expect.objectContaining({ code }));
  });
});

describe('formatting an amount', () => {
  it('writes fixed decimals in the locale', () => {
    expect(formatAmount(1_234.5, 1, 'de-DE')).toBe('1.234,5');
    expect(formatAmount(1.5, 2, 'fr-FR')).toBe('1,50');
    expect(formatAmount(-0.3, 0)).toBe('0');
    expect(formatAmount(-0.6, 0)).toBe('-1');
  });

  it.each([[0.05, 2], [5, 0], [0.25, 2], [0.001, 3], [2.5, 1]])('shows a step of %f with %i decimals', (by, places) => {
    expect(decimalsOf(by)).toBe(places);
  }); // prettier-ignore
});
