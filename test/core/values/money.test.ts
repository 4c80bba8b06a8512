import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDecimals, decimalNumber, decimalOf } from '../../../src/core/values/money-sums.ts';
import {
  currencyDecimals,
  parseMoney,
  percentOf,
  roundHalfAwayFromZero,
  timesRate,
} from '../../../src/core/values/money.ts';

const amount = fc.integer({ min: -1e9, max: 1e9 });

describe('rounding', () => {
  it.each([
    [0.5, 1], [-0.5, -1], [2.5, 3], [-2.5, -3], [2.4999, 2], [0.49999999999999994, 0], [-0.2, 0], [1e21 / 1e10, 1e11],
    [1e-7, 0], [7, 7], [-0, 0],
  ])('puts %f at %i, halves away from zero', (value, expected) => {
    expect(roundHalfAwayFromZero(value)).toBe(expected);
  }); // prettier-ignore

  it.each([NaN, Infinity, -Infinity])('refuses %f', (value) => {
    expect(() => roundHalfAwayFromZero(value)).toThrow(
      expect.objectContaining({ code: 'number.not-finite' }),
    );
  });
});

describe('percentOf', () => {
  it.each([
    [1050, 0.0825, 87], // 86.625
    [10, 0.05, 1], // 0.5
    [-10, 0.05, -1],
    [30, 0.15, 5], // 4.5, though 30 * 0.15 is stored as exactly 4.5 only by luck
    [1005, 0.1, 101], // 100.5
    [115, 0.7, 81], // 80.5; in binary 115 * 0.7 is 80.5 or 80.49999999999999
    [1000, -0.1, -100],
    [0, 0.1, 0],
  ])('of %i at %f is %i', (minor, rate, expected) => {
    expect(percentOf(minor, rate)).toBe(expected);
  });

  it('refuses broken money', () => {
    expect(() => percentOf(1.5, 0.1)).toThrow(expect.objectContaining({ code: 'money.not-whole' }));
    expect(() => percentOf(100, NaN)).toThrow(expect.objectContaining({ code: 'number.not-finite' }));
    expect(() => percentOf(9e15, 10)).toThrow(expect.objectContaining({ code: 'money.too-large' }));
  });

  it('is odd in the amount and within half a minor unit of the exact product', () => {
    fc.assert(
      fc.property(amount, fc.integer({ min: 0, max: 10_000 }), (minor, basisPoints) => {
        const rate = basisPoints / 10_000;
        const found = percentOf(minor, rate);
        expect(percentOf(-minor, rate)).toBe(found === 0 ? 0 : -found);
        const exact = BigInt(minor) * BigInt(basisPoints);
        const twiceOff = 2n * (BigInt(found) * 10_000n - exact);
        expect(twiceOff <= 10_000n && twiceOff >= -10_000n).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('timesRate', () => {
  it.each([
    [45, 5669.904625, 'lb', 563], // 12.5 lb at 45 cents: 562.5
    [125, 38_373.914502, 'lb', 10_575], // 84.6 lb
    [1, 226.796185, 'lb', 1], // half a pound at one cent: 0.5
    [199, 1500, 'kg', 299], // 298.5
    [-45, 5669.904625, 'lb', -563],
    [0, 5669.904625, 'lb', 0],
  ] as const)('%i per unit of %f g in %s is %i', (rate, grams, unit, expected) => {
    expect(timesRate(rate, grams, unit)).toBe(expected);
  });

  it('agrees with integer arithmetic for every weight that a scale can show', () => {
    const hundredths = fc.integer({ min: 1, max: 2_000_000 });
    fc.assert(
      fc.property(hundredths, fc.integer({ min: 0, max: 5000 }), (weight, rate) => {
        const grams = (weight * 453.59237) / 100;
        const twice = (BigInt(weight) * BigInt(rate) * 2n + 100n) / 200n; // half up, all positive
        expect(timesRate(rate, grams, 'lb')).toBe(Number(twice));
      }),
      { numRuns: 2000 },
    );
  });

  it('refuses an invalid weight', () => {
    expect(() => timesRate(45, NaN, 'lb')).toThrow(expect.objectContaining({ code: 'number.not-finite' }));
    expect(() => timesRate(45, 1e20, 'lb')).toThrow(expect.objectContaining({ code: 'money.too-large' }));
  });
});

describe('decimals', () => {
  it('read a number by its decimal representation', () => {
    expect(decimalOf(0.0825, 'x')).toEqual({ digits: 825n, decimals: 4 });
    expect(decimalOf(-1.5e-7, 'x')).toEqual({ digits: -15n, decimals: 8 });
    expect(decimalOf(1e21, 'x')).toEqual({ digits: 10n ** 21n, decimals: 0 });
    expect(decimalNumber(addDecimals(decimalOf(0.1, 'x'), decimalOf(0.2, 'x')))).toBe(0.3);
  });
});

describe('currencyDecimals', () => {
  it('gives the decimals of a currency and refuses an unknown one', () => {
    expect(['USD', 'JPY', 'KWD'].map(currencyDecimals)).toEqual([2, 0, 3]);
    expect(() => currencyDecimals('dollar')).toThrow(
      expect.objectContaining({ code: 'money.unknown-currency' }),
    );
  });
});

describe('parseMoney', () => {
  it.each([
    ['45', 'USD', 4500], ['45.50', 'USD', 4550], ['$45.50', 'USD', 4550], ['45,50', 'USD', 4550], ['45.5', 'USD', 4550],
    [' $ 45.50 ', 'USD', 4550], ['45.50 USD', 'USD', 4550], ['US$45.50', 'USD', 4550], ['45.', 'USD', 4500],
    ['.50', 'USD', 50], [',5', 'USD', 50], ['1,234.50', 'USD', 123_450], ['1.234,50', 'EUR', 123_450],
    ['1,234', 'USD', 123_400], ['1,234,567', 'USD', 123_456_700], ['1.234.567', 'EUR', 123_456_700],
    ['1 234,50 €', 'EUR', 123_450], ['-5', 'USD', -500], ['−5', 'USD', -500], ['-$5', 'USD', -500], ['$-5', 'USD', -500],
    ['¥450', 'JPY', 450], ['0', 'USD', 0], ['-0', 'USD', 0], ['1234.567', 'KWD', 1_234_567],
  ])('reads %s in %s as %i', (text, currency, minor) => {
    expect(parseMoney(text, currency)).toBe(minor);
  }); // prettier-ignore

  it.each([
    ['', 'USD', 'money.empty'], ['  ', 'USD', 'money.empty'], ['abc', 'USD', 'money.unreadable'], ['$', 'USD', 'money.unreadable'],
    ['4 5 lb', 'USD', 'money.other-currency'], ['€45', 'USD', 'money.other-currency'], ['$45$', 'USD', 'money.other-currency'],
    ['45.505', 'USD', 'money.too-fine'], ['1.234', 'USD', 'money.too-fine'], ['0,500', 'USD', 'money.too-fine'], ['4.5', 'JPY', 'money.too-fine'],
    ['1,234', 'KWD', 'money.ambiguous'], ['1,23,4', 'USD', 'money.unreadable'], ['1.2.3', 'USD', 'money.unreadable'],
    ['--5', 'USD', 'money.unreadable'], ['-$-5', 'USD', 'money.unreadable'], ['1e5', 'USD', 'money.unreadable'],
    ['99999999999999999', 'USD', 'money.too-large'], ['5', 'dollar', 'money.unknown-currency'],
  ])('refuses %s in %s: %s', (text, currency, code) => {
    expect(() => parseMoney(text, currency)).toThrow(expect.objectContaining({ name: 'ValidationError', code }));
  }); // prettier-ignore

  it('parses every formatted amount', () => {
    const shown = fc.constantFrom(
      ['USD', 'en-US'],
      ['EUR', 'de-DE'],
      ['CAD', 'en-CA'],
      ['JPY', 'en-US'],
    ) as fc.Arbitrary<[string, string]>;
    fc.assert(
      fc.property(amount, shown, (minor, [currency, locale]) => {
        const format = new Intl.NumberFormat(locale, { style: 'currency', currency });
        const text = format.format(minor / 10 ** currencyDecimals(currency));
        expect(parseMoney(text, currency)).toBe(minor);
      }),
      { numRuns: 1000 },
    );
  });
});
