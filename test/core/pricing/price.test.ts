import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { priceLines, type Amounts, type PriceLine } from '../../../src/core/pricing/price.ts';
import { frozen } from '../blend/requests.ts';

const POUND = 453.59237;
/** 120 lb hanging, 40 lb ground of which 5 lb bought fat. Prices are made up. */
const elk: Amounts = frozen({
  species: 'elk',
  brought: 'whole',
  hangingGrams: 120 * POUND,
  groundGrams: 40 * POUND,
  products: { 'summer-sausage': 10 * POUND },
  fats: { 'pork-back-fat': 5 * POUND },
  packages: 60,
  minutes: { hour: 90 },
  extras: { cape: 1 },
});

function line(basis: PriceLine['basis'], more: Partial<PriceLine>): PriceLine {
  return { code: basis, label: basis, basis, ...more };
}

function charge(lines: readonly PriceLine[], amounts: Amounts = elk, taxRule?: 'per line' | 'per bill') {
  return priceLines(frozen({ lines, amounts, taxRule }));
}

describe('priceLines', () => {
  it.each<[PriceLine, number, number]>([
    [line('animal', { amountMinor: 11_000 }), 1, 11_000],
    [line('hanging', { unit: 'lb', amountMinor: 115 }), 120, 13_800],
    [line('hanging', { unit: 'kg', amountMinor: 250 }), 54.4310844, 13_608],
    [line('ground', { unit: 'lb', amountMinor: 65 }), 40, 2600],
    [line('product', { unit: 'lb', amountMinor: 425, products: ['summer-sausage'] }), 10, 4250],
    [line('fat', { unit: 'lb', amountMinor: 199, fatSource: 'pork-back-fat' }), 5, 995],
    [line('package', { amountMinor: 45 }), 60, 2700],
    [line('hour', { amountMinor: 3501 }), 1.5, 5252],
    [line('extra', { amountMinor: 6000, extra: 'cape' }), 1, 6000],
  ])('charges %o', (one, quantity, amountMinor) => {
    const { lines, totalMinor } = charge([one]);
    expect(lines).toEqual([
      {
        code: one.code,
        label: one.label,
        basis: one.basis,
        quantity: expect.closeTo(quantity, 9),
        unitPriceMinor: one.amountMinor,
        amountMinor,
        taxMinor: 0,
      },
    ]);
    expect(totalMinor).toBe(amountMinor);
  });

  it('leaves out what there is nothing of', () => {
    const nothing = [
      line('product', { unit: 'lb', amountMinor: 425, products: ['jerky'] }),
      line('fat', { unit: 'lb', amountMinor: 199, fatSource: 'beef-suet' }),
      line('extra', { amountMinor: 6000, extra: 'skull' }),
    ];
    expect(charge(nothing)).toEqual(
      { lines: [], subtotalMinor: 0, taxMinor: 0, totalMinor: 0, depositMinor: 0, uncovered: [] },
    ); // prettier-ignore
  });

  it('charges every line whose filters all match', () => {
    const lines = [
      line('animal', { code: 'a', amountMinor: 1, species: ['elk', 'moose'] }),
      line('animal', { code: 'b', amountMinor: 10, species: ['moose'] }),
      line('animal', { code: 'c', amountMinor: 100, brought: ['whole'] }),
      line('animal', { code: 'd', amountMinor: 1000, species: ['elk'], brought: ['boned'] }),
      line('animal', { code: 'a', amountMinor: 10_000 }),
    ];
    expect(charge(lines).lines.map(({ code }) => code)).toEqual(['a', 'c', 'a']);
    expect(charge(lines).totalMinor).toBe(10_101);
  });

  it('takes surcharges and discounts of the plain lines, together exactly', () => {
    const lines = [
      line('animal', { amountMinor: 1001 }),
      line('percent', { code: 'x', rate: -0.5 }),
      line('percent', { code: 'y', rate: -0.5 }),
    ];
    expect(charge(lines).lines.map(({ amountMinor }) => amountMinor)).toEqual([1001, -501, -500]);
    const half = charge([line('animal', { amountMinor: 1005 }), line('percent', { rate: 0.1 })]);
    expect(half.totalMinor).toBe(1005 + 101);
  });

  it('tops up to the highest minimum that applies, after discounts', () => {
    const lines = [
      line('animal', { amountMinor: 5000 }),
      line('percent', { rate: -0.1 }),
      line('minimum', { code: 'low', amountMinor: 6000 }),
      line('minimum', { code: 'high', amountMinor: 7500 }),
      line('minimum', { code: 'moose', amountMinor: 90_000, species: ['moose'] }),
    ];
    const found = charge(lines);
    expect(found.lines.at(-1)).toMatchObject({ code: 'high', amountMinor: 3000 });
    expect(found.totalMinor).toBe(7500);
    expect(charge([line('animal', { amountMinor: 9000 }), ...lines]).lines.at(-1)?.basis).toBe('percent');
  });

  it('rounds tax on each line or once on the bill', () => {
    const lines = [1, 2, 3].map((i) => line('animal', { code: `${i}`, amountMinor: 50, taxRate: 0.05 }));
    const perLine = charge(lines, elk, 'per line');
    expect(perLine.lines.map(({ taxMinor }) => taxMinor)).toEqual([3, 3, 3]); // 2.5 each
    const perBill = charge(lines, elk, 'per bill');
    expect(perBill.taxMinor).toBe(8); // 7.5
    expect(perBill.lines.map(({ taxMinor }) => taxMinor)).toEqual([3, 2, 3]);
    expect(charge(lines)).toEqual(perBill);
  });

  // What is charged in the end is taxed; a percentage off all is that percentage off each. Texas Comptroller, STAR
  // 200904303L (2009): "10 percent discount on all purchases", a $150 dress is taxed as $135. Minnesota Revenue, Discounts
  // and Coupons: "Sales price after you subtract the discount amount". What follows from it for several rates is computed.
  it.each<[string, PriceLine[], Record<string, number>]>([
    ['10 % off everything, of which $150 are taxed (the example from Texas; 8.25 % from memory)',
      [line('animal', { amountMinor: 15_000, taxRate: 0.0825 }), line('percent', { rate: -0.1 })], { animal: 1238, percent: -124 }],
    ['10 % off $100 free of tax and $50 at 6 %',
      [line('animal', { amountMinor: 10_000 }), line('animal', { code: 'taxed', amountMinor: 5000, taxRate: 0.06 }), line('percent', { rate: -0.1 })],
      { animal: 0, taxed: 300, percent: -30 }],
    ['15 % more on $100 free of tax and $50 at 6 %',
      [line('animal', { amountMinor: 10_000 }), line('animal', { code: 'taxed', amountMinor: 5000, taxRate: 0.06 }), line('percent', { rate: 0.15 })],
      { animal: 0, taxed: 300, percent: 45 }],
    ['half off $40 at 5 %, $20 at 8 % and $10 free of tax',
      [line('animal', { amountMinor: 4000, taxRate: 0.05 }), line('animal', { code: 'b', amountMinor: 2000, taxRate: 0.08 }), line('animal', { code: 'c', amountMinor: 1000 }), line('percent', { rate: -0.5 })],
      { animal: 200, b: 160, c: 0, percent: -180 }],
    ['everything off', [line('animal', { amountMinor: 999, taxRate: 0.07 }), line('animal', { code: 'b', amountMinor: 500 }), line('percent', { rate: -1 })],
      { animal: 70, b: 0, percent: -70 }],
    ['10 % off where a discount in money cancels the taxed line',
      [line('animal', { amountMinor: 10_000, taxRate: 0.06 }), line('animal', { code: 'b', amountMinor: -10_000 }), line('percent', { rate: -0.1 })],
      { animal: 600, b: 0, percent: -60 }],
  ])('taxes a discount or surcharge at the rates of its lines, in proportion: %s', (_, lines, taxes) => {
    for (const rule of ['per line', 'per bill'] as const) {
      const found = charge(lines, elk, rule);
      expect(Object.fromEntries(found.lines.map(({ code, taxMinor }) => [code, taxMinor]))).toEqual(taxes);
      expect(found.taxMinor).toBe(Object.values(taxes).reduce((sum, tax) => sum + tax, 0));
    }
  }); // prettier-ignore

  it('asks for a deposit of a fixed sum or of a part of the total, and never of more than the total', () => {
    const base = line('animal', { amountMinor: 10_000, taxRate: 0.05 });
    expect(charge([base, line('deposit', { amountMinor: 5000 })]).depositMinor).toBe(5000);
    expect(charge([base, line('deposit', { rate: 0.5 })]).depositMinor).toBe(5250);
    expect(charge([base, line('deposit', { amountMinor: 50_000 })]).depositMinor).toBe(10_500);
    expect(charge([base, line('deposit', { amountMinor: 5000 })]).totalMinor).toBe(10_500);
  });

  it('charges a pound and a kilogram alike where the prices are exactly the same', () => {
    // $453,592.37 a pound is $1,000,000 a kilogram to the cent.
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), (hundredths) => {
        const amounts = { ...elk, hangingGrams: (hundredths * POUND) / 100 };
        const byLb = charge([line('hanging', { unit: 'lb', amountMinor: 45_359_237 })], amounts);
        const byKg = charge([line('hanging', { unit: 'kg', amountMinor: 100_000_000 })], amounts);
        expect(byLb.totalMinor).toBe(byKg.totalMinor);
      }),
      { numRuns: 1000 },
    );
  });

  it('charges a whole bill in pounds and in kilograms alike, tax, discount and smallest charge included', () => {
    const bases = ['hanging', 'ground', 'product', 'fat'] as const;
    const share = fc.integer({ min: 0, max: 200 });
    const steps = fc.integer({ min: 0, max: 50_000 });
    fc.assert(
      fc.property(
        fc.subarray([...bases], { minLength: 1 }),
        fc.record({ hanging: steps, ground: steps, sausage: steps, suet: steps, off: share, tax: share }),
        fc.constantFrom('per line' as const, 'per bill' as const),
        (charged, { hanging, ground, sausage, suet, off, tax }, rule) => {
          const grams = (hundredths: number) => (hundredths * POUND) / 100;
          const amounts: Amounts = {
            ...elk, hangingGrams: grams(hanging), groundGrams: grams(ground),
            products: { 'summer-sausage': grams(sausage) }, fats: { 'beef-suet': grams(suet) },
          }; // prettier-ignore
          const book = (unit: 'lb' | 'kg', amountMinor: number): PriceLine[] => [
            ...charged.map((basis) =>
              line(basis, {
                unit,
                amountMinor,
                products: ['summer-sausage'],
                fatSource: 'beef-suet',
                taxRate: tax / 1000,
              }),
            ),
            line('percent', { rate: -off / 1000, taxRate: tax / 1000 }),
            line('minimum', { amountMinor: 90_000_000 }),
          ];
          // $453,592.37 a pound is $1,000,000 a kilogram: the smallest price that is whole cents by both.
          const byLb = charge(book('lb', 45_359_237), amounts, rule);
          const byKg = charge(book('kg', 100_000_000), amounts, rule);
          expect({ ...byLb, lines: sums(byLb) }).toEqual({ ...byKg, lines: sums(byKg) });
        },
      ),
      { numRuns: 1000 },
    );
    function sums(of: ReturnType<typeof charge>): number[][] {
      return of.lines.map(({ amountMinor, taxMinor }) => [amountMinor, taxMinor]);
    }
  });

  const price = fc.integer({ min: 0, max: 20_000 });
  const anyLine: fc.Arbitrary<PriceLine> = fc.oneof(
    price.map((amountMinor) => line('animal', { amountMinor })),
    fc.record({ amountMinor: price, unit: fc.constantFrom('lb' as const, 'kg' as const) }).map((more) => line('hanging', more)),
    price.map((amountMinor) => line('package', { amountMinor })),
    price.map((amountMinor) => line('minimum', { amountMinor })),
    fc.integer({ min: -400, max: 500 }).map((n) => line('percent', { rate: n / 1000 })),
  ); // prettier-ignore
  const weighed = fc
    .record({ hanging: fc.integer({ min: 0, max: 500_000 }), packages: fc.nat({ max: 300 }) })
    .map(({ hanging, packages }): Amounts => ({ ...elk, hangingGrams: hanging, packages }));

  it('sums exactly: lines to subtotal, taxes to tax, both to the total, under either rule', () => {
    const taxed = fc.tuple(anyLine, fc.integer({ min: 0, max: 100 })).map(([one, n]) => ({ ...one, taxRate: n / 1000 }));
    const safe = fc.array(taxed, { maxLength: 8 }).filter(notOverdiscounted);
    fc.assert(
      fc.property(safe, weighed, fc.constantFrom('per line' as const, 'per bill' as const), (lines, amounts, rule) => {
        const found = charge(lines, amounts, rule);
        expect(found.subtotalMinor).toBe(found.lines.reduce((sum, { amountMinor }) => sum + amountMinor, 0));
        expect(found.taxMinor).toBe(found.lines.reduce((sum, { taxMinor }) => sum + taxMinor, 0));
        expect(found.totalMinor).toBe(found.subtotalMinor + found.taxMinor);
        for (const { quantity, unitPriceMinor, amountMinor } of found.lines)
          expect(Math.abs(quantity * unitPriceMinor - amountMinor)).toBeLessThan(1.001);
      }),
      { numRuns: 1000 },
    );
  }); // prettier-ignore

  const anyRate = fc.constantFrom(0, 0, 0.05, 0.0625, 0.06, 0.0825, 0.2);
  const ratedLine = fc.oneof(
    fc.tuple(fc.integer({ min: -3000, max: 20_000 }), anyRate).map(([amountMinor, taxRate]) => line('animal', { amountMinor, taxRate })),
    fc.tuple(price, anyRate).map(([amountMinor, taxRate]) => line('package', { amountMinor, taxRate })),
    fc.tuple(price, anyRate).map(([amountMinor, taxRate]) => line('minimum', { amountMinor, taxRate })),
    fc.tuple(fc.integer({ min: -400, max: 500 }), anyRate).map(([n, taxRate]) => line('percent', { rate: n / 1000, taxRate })),
  ); // prettier-ignore
  const ratedBook = fc
    .array(ratedLine, { maxLength: 8 })
    .map((lines) => lines.map((one, i) => ({ ...one, code: `${one.basis} ${i}` })))
    .filter(notOverdiscounted);

  it('taxes and charges the same whatever the order of the lines', () => {
    const ordered = ratedBook.chain((lines) =>
      fc.tuple(fc.constant(lines), fc.shuffledSubarray(lines, { minLength: lines.length })),
    );
    fc.assert(
      fc.property(ordered, fc.constantFrom('per line' as const, 'per bill' as const), ([lines, turned], rule) => {
        const [before, after] = [charge(lines, elk, rule), charge(turned, elk, rule)];
        expect({ ...after, lines: [] }).toEqual({ ...before, lines: [] });
        const amounts = (of: typeof before) => of.lines.map(({ code, amountMinor }) => [code, amountMinor]).sort();
        expect(amounts(after)).toEqual(amounts(before));
      }),
      { numRuns: 2000 },
    );
  }); // prettier-ignore

  it('taxes what each line costs after its discounts and surcharges, to within a cent for each rate', () => {
    const rates = (lines: readonly PriceLine[]) => new Set(lines.map(({ taxRate }) => taxRate)).size;
    fc.assert(
      fc.property(ratedBook, (lines) => {
        const found = charge(lines, elk, 'per bill');
        const more = lines.reduce((sum, { rate }) => sum + (rate ?? 0), 0);
        // An independent way: every line is first made dearer or cheaper, in fractions of a cent, and then taxed.
        const exact = found.lines.reduce((sum, { code, basis, amountMinor }) => {
          if (basis === 'percent') return sum;
          const rate = lines.find((one) => one.code === code)?.taxRate ?? 0;
          return sum + amountMinor * rate * (basis === 'minimum' ? 1 : 1 + more);
        }, 0);
        expect(Number.isSafeInteger(found.taxMinor)).toBe(true);
        expect(Math.abs(found.taxMinor - exact)).toBeLessThanOrEqual(rates(lines) + 1e-6);
      }),
      { numRuns: 2000 },
    );
  });

  it('never gets cheaper by a further line that is no discount', () => {
    const further = anyLine.filter(({ rate }) => (rate ?? 0) >= 0);
    const safe = fc.array(anyLine, { maxLength: 6 }).filter(notOverdiscounted);
    fc.assert(
      fc.property(safe, further, weighed, (lines, one, amounts) => {
        const taxed = (all: readonly PriceLine[]) => all.map((each) => ({ ...each, taxRate: 0.06 }));
        const before = charge(taxed(lines), amounts).totalMinor;
        expect(charge(taxed([...lines, one]), amounts).totalMinor).toBeGreaterThanOrEqual(before);
      }),
      { numRuns: 1000 },
    );
  });

  function notOverdiscounted(lines: readonly PriceLine[]): boolean {
    return lines.reduce((sum, { rate }) => sum + (rate ?? 0), 0) >= -1;
  }

  it.each<[string, Partial<PriceLine>, string]>([
    ['no code', { code: '' }, 'price.no-code'],
    ['a weight line without unit', { basis: 'hanging' }, 'price.no-unit'],
    ['a product line without product', { basis: 'product', unit: 'lb' }, 'price.not-named'],
    ['a fat line without fat', { basis: 'fat', unit: 'lb' }, 'price.not-named'],
    ['an extra without its name', { basis: 'extra' }, 'price.not-named'],
    ['no amount', { amountMinor: undefined }, 'price.amount-or-rate'],
    ['both amount and rate', { rate: 0.1 }, 'price.amount-or-rate'],
    ['a percent line with an amount', { basis: 'percent' }, 'price.amount-or-rate'],
    ['half a cent', { amountMinor: 0.5 }, 'money.not-whole'],
    ['an amount that is no number', { amountMinor: NaN }, 'money.not-whole'],
    ['a rate that is no number', { basis: 'percent', amountMinor: undefined, rate: NaN }, 'number.not-finite'],
    ['a negative minimum', { basis: 'minimum', amountMinor: -1 }, 'price.negative'],
    ['a deposit above the whole', { basis: 'deposit', amountMinor: undefined, rate: 1.5 }, 'share.out-of-range'],
    ['tax in percent', { taxRate: 6 }, 'share.out-of-range'],
    ['a discount above the whole', { basis: 'percent', amountMinor: undefined, rate: -1.1 }, 'price.discount-over-all'],
  ])('refuses %s', (_, wrong, code) => {
    const lines = [{ ...line('animal', { amountMinor: 100 }), ...wrong }];
    expect(() => charge(lines)).toThrow(expect.objectContaining({ name: 'ValidationError', code }));
  }); // prettier-ignore

  it.each<[Partial<Amounts>, string]>([
    [{ hangingGrams: NaN }, 'number.not-finite'],
    [{ groundGrams: -1 }, 'amount.negative'],
    [{ fats: { suet: Infinity } }, 'number.not-finite'],
    [{ animals: -1 }, 'amount.negative'],
  ])('refuses amounts %o', (wrong, code) => {
    expect(() => charge([], { ...elk, ...wrong })).toThrow(expect.objectContaining({ code }));
  });
});
