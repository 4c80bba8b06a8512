/** Free lines, discounts and other prices, reckoned by hand; all prices are made up. Amounts in cents. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  priceLines,
  type Adjustment,
  type Amounts,
  type PriceLine,
} from '../../../src/core/pricing/price.ts';
import { frozen } from '../blend/requests.ts';

const POUND = 453.59237;
const deer: Amounts = { species: 'deer', brought: 'whole', hangingGrams: 80 * POUND, groundGrams: 20 * POUND, packages: 30 }; // prettier-ignore
const cut: PriceLine = { code: 'cut', label: 'Cut and wrap', basis: 'animal', amountMinor: 10_000 };
const bags: PriceLine = {
  code: 'bags',
  label: 'Freezer bags',
  basis: 'animal',
  amountMinor: 5000,
  taxRate: 0.06,
};
const RULES = ['per line', 'per bill'] as const;

const free = (amountMinor: number, taxRate = 0): Adjustment => ({ kind: 'free line', code: 'free', label: 'Cooler box', amountMinor, taxRate }); // prettier-ignore
const off = (amountMinor: number, code = 'off'): Adjustment => ({ kind: 'amount off', code, label: 'Discount', amountMinor }); // prettier-ignore
const percent = (rate: number, code = 'percent'): Adjustment => ({ kind: 'percent off', code, label: 'Discount', rate }); // prettier-ignore
const price = (lineCode: string, amountMinor: number): Adjustment => ({ kind: 'other price', lineCode, label: 'Promised', amountMinor }); // prettier-ignore

function charge(lines: readonly PriceLine[], adjustments: readonly Adjustment[], taxRule: (typeof RULES)[number] = 'per line') {
  const found = priceLines(frozen({ lines, amounts: deer, taxRule, adjustments }));
  const sums = Object.fromEntries(found.lines.map(({ code, amountMinor }) => [code, amountMinor]));
  return { sums, tax: found.taxMinor, total: found.totalMinor };
} // prettier-ignore

describe('what a bill leaves the price book for', () => {
  it.each(RULES)('an amount off $100 free of tax and $50 at 6 % is taxed in proportion, %s', (rule) => {
    // $30 off $150: $20 of it off the $100, $10 off the $50. 6 % of $40 = $2.40. $150 − $30 + $2.40 = $122.40.
    expect(charge([cut, bags], [off(3000)], rule)).toEqual({ sums: { cut: 10_000, bags: 5000, off: -3000 }, tax: 240, total: 12_240 }); // prettier-ignore
  });

  it.each(RULES)('a percentage off is taxed in proportion too, %s', (rule) => {
    // 10 % of $150 = $15; 6 % of $45 = $2.70.
    expect(charge([cut, bags], [percent(0.1)], rule)).toMatchObject({ tax: 270, total: 13_770 });
  });

  it('percentages are of the same sum, and amounts of what is left, in whatever order they were given', () => {
    // 10 % and 5 % of $150 are $15 and $7.50, then $20: $107.50. The taxed third is $50 − $7.50 − $6.67 (of $20 ÷ 127.5 × 42.5).
    const given = charge([cut, bags], [off(2000), percent(0.1, 'a'), percent(0.05, 'b')]);
    expect(given.sums).toEqual({ cut: 10_000, bags: 5000, a: -1500, b: -750, off: -2000 });
    // 6 % of ($50 − $5.00 − $2.50 − $6.67): line by line $3.00 − $0.30 − $0.15 − $0.40.
    expect(given.tax).toBe(215);
    expect(given.total).toBe(10_750 + 215);
  });

  it('a discount never takes more than there is', () => {
    expect(charge([cut, bags], [off(14_000, 'a'), off(5000, 'b')])).toEqual({ sums: { cut: 10_000, bags: 5000, a: -14_000, b: -1000 }, tax: 0, total: 0 }); // prettier-ignore
    expect(charge([cut], [percent(1)])).toMatchObject({ total: 0 });
    expect(charge([], [off(500), percent(0.5)])).toEqual({ sums: {}, tax: 0, total: 0 });
    expect(() => charge([cut], [percent(0.6, 'a'), percent(0.5, 'b')])).toThrow(
      expect.objectContaining({ code: 'price.discount-over-all' }),
    );
  });

  it('a free line has its own tax and counts for the percentages of the price book', () => {
    // $100 and $25 at 8 %; early bird 10 % of $125 = $12.50, of it $2.50 off what is taxed: 8 % of $22.50 = $1.80.
    const early: PriceLine = { code: 'early', label: 'Early', basis: 'percent', rate: -0.1 };
    expect(charge([cut, early], [free(2500, 0.08)])).toEqual({ sums: { cut: 10_000, free: 2500, early: -1250 }, tax: 180, total: 11_430 }); // prettier-ignore
  });

  it('a discount is of the smallest charge too', () => {
    const least: PriceLine = {
      code: 'least',
      label: 'Smallest charge',
      basis: 'minimum',
      amountMinor: 15_000,
    };
    expect(charge([cut, least], [off(1000)]).sums).toEqual({ cut: 10_000, least: 5000, off: -1000 });
    expect(charge([cut, least], [price('least', 0)]).sums).toEqual({ cut: 10_000 });
  });

  it('another price is that of one unit, and the last one counts', () => {
    const hang: PriceLine = { code: 'hang', label: 'Cut', basis: 'hanging', unit: 'lb', amountMinor: 95 };
    // 80 lb × $0.80.
    expect(charge([hang, bags], [price('hang', 90), price('hang', 80)]).sums).toEqual({
      hang: 6400,
      bags: 5000,
    });
    expect(charge([hang], [price('hang', 0)]).sums).toEqual({ hang: 0 });
  });

  const money = fc.integer({ min: 0, max: 30_000 });
  const rate = fc.constantFrom(0, 0.05, 0.06, 0.0825);
  const book = fc.array(fc.tuple(fc.constantFrom('animal' as const, 'package' as const, 'hanging' as const), money, rate), { maxLength: 6 })
    .map((all) => all.map(([basis, amountMinor, taxRate], i): PriceLine => ({ code: `${i}`, label: '', basis, amountMinor, taxRate, unit: 'lb' }))); // prettier-ignore
  const some = fc.array(fc.oneof(
    fc.tuple(money, rate).map(([minor, tax]) => free(minor, tax)),
    money.map((minor) => off(minor + 1)),
    fc.integer({ min: 1, max: 250 }).map((n) => percent(n / 1000)),
    fc.tuple(fc.constantFrom('0', '1', '2'), money).map(([code, minor]) => price(code, minor)),
  ), { maxLength: 4 }).map((all) => all.map((one, i) => ('code' in one ? { ...one, code: `adjustment-${i}` } : one))); // prettier-ignore

  it('lines sum to the total, and nothing falls below zero', () => {
    fc.assert(
      fc.property(book, some, fc.constantFrom(...RULES), (lines, adjustments, taxRule) => {
        const found = priceLines(frozen({ lines, amounts: deer, taxRule, adjustments }));
        const sum = (of: 'amountMinor' | 'taxMinor') => found.lines.reduce((all, one) => all + one[of], 0);
        expect(found.subtotalMinor).toBe(sum('amountMinor'));
        expect(found.taxMinor).toBe(sum('taxMinor'));
        expect(found.totalMinor).toBe(found.subtotalMinor + found.taxMinor);
        expect(found.subtotalMinor).toBeGreaterThanOrEqual(0);
        // Rounding line by line may be off by a cent for each line; the sum of the bill may not.
        if (taxRule === 'per bill') expect(found.taxMinor).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 2000 },
    );
  });

  it('another price changes no other line of a bill without percentages and smallest charge', () => {
    fc.assert(
      fc.property(book, money, fc.nat(5), (lines, minor, which) => {
        const before = priceLines({ lines, amounts: deer, taxRule: 'per line' }).lines;
        const after = priceLines({ lines, amounts: deer, taxRule: 'per line', adjustments: [price(`${which}`, minor)] }).lines; // prettier-ignore
        const others = (all: typeof before) => all.filter(({ code }) => code !== `${which}`);
        expect(others(after)).toEqual(others(before));
        const own = after.find(({ code }) => code === `${which}`);
        expect(own?.unitPriceMinor).toBe(lines[which] ? minor : undefined);
      }),
      { numRuns: 1000 },
    );
  });
});
