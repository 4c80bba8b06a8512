/**
 * Bills and quotes reckoned by hand. All prices are made up. Amounts are in cents; what falls on half a cent goes away
 * from zero: 9717.5 is 9718, and −485.5 is −486.
 */
import { describe, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';
import { draftOf, grind, priced, pricedShop, quotedFigures } from '../pricing/priced-shop.ts';

const LB = 453.59237;
const deer = (shop: FreshDesk, hanging: string | null, more = {}) =>
  takeIn(shop, { species: 'mule-deer', ...more }, hanging);

describe('a bill worked by hand', () => {
  it('1: half a cent on a weight goes up', async () => {
    const shop = await pricedShop([priced('hang', 'hanging', { unit: 'lb', amountMinor: 115 })]);
    // 84.5 lb × $1.15 = $97.175.
    expect(await draftOf(shop, await deer(shop, '84.5'))).toEqual({
      lines: { hang: 9718 },
      tax: 0,
      total: 9718,
    });
  });

  it('2: half a cent of a discount goes down, away from zero as well', async () => {
    const shop = await pricedShop([
      priced('flat', 'animal', { amountMinor: 9710 }),
      priced('early', 'percent', { rate: -0.05 }),
    ]);
    // 5 % of $97.10 = $4.855: $4.86 off. $97.10 − $4.86 = $92.24.
    expect(await draftOf(shop, await deer(shop, '80'))).toEqual({
      lines: { flat: 9710, early: -486 },
      tax: 0,
      total: 9224,
    });
  });

  it('3: tax on each line and tax on the whole bill differ by a cent', async () => {
    const lines = ['flat', 'salting', 'tagging'].map((code) =>
      priced(code, 'animal', { amountMinor: 1010, taxRate: 0.06 }),
    );
    const perLine = await pricedShop(lines, { taxRule: 'per line' });
    // 6 % of $10.10 = $0.606 → $0.61, three times: $1.83. $30.30 + $1.83 = $32.13.
    expect(await draftOf(perLine, await deer(perLine, '80'))).toMatchObject({ tax: 183, total: 3213 });
    const perBill = await pricedShop(lines, { taxRule: 'per bill' });
    // 6 % of $30.30 = $1.818 → $1.82. $30.30 + $1.82 = $32.12.
    expect(await draftOf(perBill, await deer(perBill, '80'))).toMatchObject({ tax: 182, total: 3212 });
  });

  it('4: a small animal is lifted to the higher of two smallest charges', async () => {
    const shop = await pricedShop([
      priced('hang', 'hanging', { unit: 'lb', amountMinor: 95 }),
      priced('least', 'minimum', { amountMinor: 6000 }),
      priced('least deer', 'minimum', { amountMinor: 7500, species: ['mule-deer'] }),
    ]);
    // 60 lb × $0.95 = $57.00; $75.00 − $57.00 = $18.00.
    expect(await draftOf(shop, await deer(shop, '60'))).toEqual({
      lines: { hang: 5700, 'least deer': 1800 },
      tax: 0,
      total: 7500,
    });
    // 90 lb × $0.95 = $85.50 is above it.
    expect(await draftOf(shop, await deer(shop, '90'))).toMatchObject({ lines: { hang: 8550 }, total: 8550 });
  });

  it('5: a discount and a surcharge are both of the same sum', async () => {
    const shop = await pricedShop([
      priced('flat', 'animal', { amountMinor: 12_345 }),
      priced('early', 'percent', { rate: -0.1 }),
      priced('rush', 'percent', { rate: 0.15 }),
    ]);
    // −10 % of $123.45 = −$12.345 → −$12.35; both together +5 % = $6.1725 → $6.17, so the rush is $6.17 + $12.35 = $18.52.
    expect(await draftOf(shop, await deer(shop, '80'))).toEqual({
      lines: { flat: 12_345, early: -1235, rush: 1852 },
      tax: 0,
      total: 12_962,
    });
  });

  it('5a: a discount over a taxed and an exempt line lowers the tax by the share of the taxed one', async () => {
    const lines = [
      priced('cut', 'animal', { amountMinor: 10_000 }),
      priced('sausage', 'extra', { amountMinor: 5000, taxRate: 0.06 }),
      // A rate of its own, as older price books may hold, is not used.
      priced('early', 'percent', { rate: -0.1, taxRate: 0.06 }),
    ];
    for (const taxRule of ['per line', 'per bill'] as const) {
      const shop = await pricedShop(lines, { taxRule });
      // 10 % of $150.00 = $15.00, of it $5.00 off the $50.00 that are taxed: 6 % of $45.00 = $2.70.
      expect(await draftOf(shop, await deer(shop, '80'), { extras: { sausage: 1 } })).toEqual({
        lines: { cut: 10_000, sausage: 5000, early: -1500 },
        tax: 270,
        total: 13_770,
      });
    }
  });

  it('6: a deposit is a share of the total with its tax, and is taken off what is due', async () => {
    const shop = await pricedShop([
      priced('flat', 'animal', { amountMinor: 25_010, taxRate: 0.06 }),
      priced('deposit', 'deposit', { rate: 0.3 }),
    ]);
    const animalId = await deer(shop, '80');
    // Tax 6 % of $250.10 = $15.006 → $15.01; total $265.11; 30 % of it $79.533 → $79.53.
    const { draft } = await shop.call('bills.get', { animalId });
    expect(draft).toMatchObject({ taxMinor: 1501, totalMinor: 26_511, depositMinor: 7953 });
    await shop.call('bills.pay', { animalId, kind: 'deposit', method: 'cash', typed: '79.53' });
    await shop.call('bills.create', { animalId, confirmed: true });
    // $265.11 − $79.53 = $185.58.
    expect((await shop.call('bills.get', { animalId })).dueMinor).toBe(18_558);
  });

  it('7: a product with a price of its own is not charged as grind too', async () => {
    const shop = await pricedShop([
      priced('grind', 'ground', { unit: 'lb', amountMinor: 45 }),
      priced('sausage', 'product', { unit: 'lb', amountMinor: 275, products: ['Breakfast sausage'] }),
    ]);
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '100.00' });
    await grind(shop, { trim: { [id]: '60.00' }, product: 'Breakfast sausage', count: 60, packed: '59.90' });
    await grind(shop, { trim: { [id]: '40.00' }, count: 40, packed: '39.70' });
    // 59.9 lb × $2.75 = $164.725 → $164.73; 39.7 lb × $0.45 = $17.865 → $17.87.
    expect(await draftOf(shop, id)).toEqual({
      lines: { sausage: 16_473, grind: 1787 },
      tax: 0,
      total: 18_260,
    });
  });

  it('8: of a pooled batch each pays for the share that his lean is', async () => {
    const shop = await pricedShop([
      priced('grind', 'ground', { unit: 'lb', amountMinor: 45 }),
      priced('back fat', 'fat', { unit: 'lb', amountMinor: 199, fatSource: 'pork-back-fat' }),
      priced('wrap', 'package', { amountMinor: 35 }),
    ]);
    const [ann, bo] = [await takeIn(shop), await takeIn(shop, { hunter: { name: 'Bo Birch' } })];
    await cut(shop, ann, { trim: '20.00' });
    await cut(shop, bo, { trim: '10.00' });
    await grind(shop, {
      trim: { [ann]: '20.00', [bo]: '10.00' },
      fat: { source: 'pork-back-fat', typed: '6.00' },
      count: 36,
      packed: '35.70',
    });
    // Two thirds: 23.8 lb × $0.45 = $10.71; 4 lb × $1.99 = $7.96; 24 × $0.35 = $8.40.
    expect(await draftOf(shop, ann)).toEqual({
      lines: { grind: 1071, 'back fat': 796, wrap: 840 },
      tax: 0,
      total: 2707,
    });
    // One third: 11.9 lb × $0.45 = $5.355 → $5.36; 2 lb × $1.99 = $3.98; 12 × $0.35 = $4.20.
    expect(await draftOf(shop, bo)).toEqual({
      lines: { grind: 536, 'back fat': 398, wrap: 420 },
      tax: 0,
      total: 1354,
    });
  });

  it('9: fat is charged by what it is', async () => {
    const shop = await pricedShop([
      priced('back fat', 'fat', { unit: 'lb', amountMinor: 199, fatSource: 'pork-back-fat' }),
      priced('suet', 'fat', { unit: 'lb', amountMinor: 149, fatSource: 'beef-suet' }),
    ]);
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '100.00' });
    await grind(shop, {
      trim: { [id]: '60.00' }, fat: { source: 'pork-back-fat', typed: '7.50' }, count: 67, packed: '67.00',
    }); // prettier-ignore
    await grind(shop, {
      trim: { [id]: '40.00' }, fat: { source: 'beef-suet', typed: '4.50' }, count: 44, packed: '44.00',
    }); // prettier-ignore
    // 7.5 lb × $1.99 = $14.925 → $14.93; 4.5 lb × $1.49 = $6.705 → $6.71.
    expect(await draftOf(shop, id)).toEqual({ lines: { 'back fat': 1493, suet: 671 }, tax: 0, total: 2164 });
  });

  it('10: packages are counted, those of the table too', async () => {
    const shop = await pricedShop([
      priced('flat', 'animal', { amountMinor: 9000 }),
      priced('wrap', 'package', { amountMinor: 45, taxRate: 0.0825 }),
    ]);
    const id = await deer(shop, '80', { detail: 'quick' });
    for (const [product, count, typed] of [['Steaks', 14, '14.00'], ['Ground', 23, '23.20']] as const)
      await shop.call('table.weigh', { animalId: id, stage: 'packed', part: 'package', product, count, typed }); // prettier-ignore
    // 37 × $0.45 = $16.65; 8.25 % of it $1.373625 → $1.37. $90.00 + $16.65 + $1.37 = $108.02.
    expect(await draftOf(shop, id)).toEqual({ lines: { flat: 9000, wrap: 1665 }, tax: 137, total: 10_802 });
  });

  it('11: hours and what is asked for once', async () => {
    const shop = await pricedShop([
      priced('by the hour', 'hour', { amountMinor: 3501 }),
      priced('cape', 'extra', { amountMinor: 6000 }),
      priced('skull', 'extra', { amountMinor: 4000 }),
    ]);
    // 1.5 h × $35.01 = $52.515 → $52.52; the skull was not asked for.
    expect(
      await draftOf(shop, await deer(shop, '80'), { minutes: { 'by the hour': 90 }, extras: { cape: 1 } }),
    ).toEqual({
      lines: { 'by the hour': 5252, cape: 6000 },
      tax: 0,
      total: 11_252,
    });
  });

  it('12: a shop that weighs in kilograms', async () => {
    const shop = await pricedShop(
      [
        priced('hang', 'hanging', { unit: 'kg', amountMinor: 255 }),
        priced('grind', 'ground', { unit: 'kg', amountMinor: 105 }),
      ],
      { unit: 'kg' },
    );
    const id = await deer(shop, '38.5', { detail: 'quick' });
    await shop.call('table.weigh', {
      animalId: id, stage: 'packed', part: 'package', product: 'Ground', count: 25, typed: '12.34',
    }); // prettier-ignore
    // 38.5 kg × $2.55 = $98.175 → $98.18; 12.34 kg × $1.05 = $12.957 → $12.96.
    expect(await draftOf(shop, id)).toEqual({ lines: { hang: 9818, grind: 1296 }, tax: 0, total: 11_114 });
  });
});

const ORDERS = {
  cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: LB, extras: [], note: '',
}; // prettier-ignore
function ask(more: Partial<CallInput<'quotes.calculate'>> = {}): CallInput<'quotes.calculate'> {
  return {
    species: 'elk', sex: 'male', age: 'adult', brought: 'skinned', stage: 'hanging', typed: '400', instructions: ORDERS,
    ...more,
  }; // prettier-ignore
}
/** Cents of grams at a price per pound; the foretold grams are of no round figure, so nothing lies on half a cent. */
const atLb = (grams: number, cents: number): number => Math.round((grams / LB) * cents);

describe('a quote worked by hand', () => {
  it('13: is the same sum on foretold amounts: hanging, grind, fat and packages', async () => {
    const shop = await pricedShop([
      priced('hang', 'hanging', { unit: 'lb', amountMinor: 95 }),
      priced('grind', 'ground', { unit: 'lb', amountMinor: 45 }),
      priced('back fat', 'fat', { unit: 'lb', amountMinor: 199, fatSource: 'pork-back-fat' }),
      priced('wrap', 'package', { amountMinor: 45 }),
    ]);
    const quote = await shop.call(
      'quotes.calculate',
      ask({ instructions: { ...ORDERS, fat: 'pork-back-fat', targetFat: 0.125 } }),
    );
    const ground = quote.products.find(({ product }) => product === 'Ground');
    const packages = quote.products
      .filter(({ product }) => product !== 'Own fat, saved')
      .reduce((total, one) => total + one.packages.mean, 0);
    // 400 lb × $0.95 = $380.00.
    const lines = {
      hang: 38_000,
      grind: atLb(ground?.grams.mean ?? 0, 45),
      'back fat': atLb(quote.fatToBuyGrams.mean, 199),
      wrap: packages * 45,
    };
    expect(quotedFigures(quote)).toEqual({
      lines,
      tax: 0,
      total: lines.hang + lines.grind + lines['back fat'] + lines.wrap,
    });
    expect(lines.grind).toBeGreaterThan(3000);
    expect(lines.wrap % 45).toBe(0);
  });

  it('14: with a product of its own price, a discount, and tax on the whole', async () => {
    const shop = await pricedShop(
      [
        priced('hang', 'hanging', { unit: 'lb', amountMinor: 95, taxRate: 0.06 }),
        priced('sausage', 'product', { unit: 'lb', amountMinor: 275, products: ['Sausage'], taxRate: 0.06 }),
        priced('early', 'percent', { rate: -0.1, taxRate: 0.06 }),
      ],
      { taxRule: 'per bill' },
    );
    const quote = await shop.call(
      'quotes.calculate',
      ask({ instructions: { ...ORDERS, grindProduct: 'Sausage' } }),
    );
    const made = quote.products.find(({ product }) => product === 'Sausage')?.grams.mean ?? 0;
    const sausage = atLb(made, 275);
    const plain = 38_000 + sausage;
    // 10 % off the plain lines, a half cent away from zero.
    const early = -Math.floor((plain + 5) / 10);
    const tax = Math.round((plain + early) * 0.06);
    expect(quotedFigures(quote)).toEqual({
      lines: { hang: 38_000, sausage, early },
      tax,
      total: plain + early + tax,
    });
  });

  it('15: in kilograms, with a smallest charge that lifts the low end only', async () => {
    const shop = await pricedShop(
      [
        priced('grind', 'ground', { unit: 'kg', amountMinor: 100 }),
        priced('least', 'minimum', { amountMinor: 1300 }),
      ],
      { unit: 'kg' },
    );
    const quote = await shop.call('quotes.calculate', ask({ species: 'mule-deer', typed: '40' }));
    const ground = quote.products.find(({ product }) => product === 'Ground')?.grams;
    const cents = (grams = 0): number => Math.round(grams / 10);
    // Where the grind alone comes to less than $13 it is $13, and above that what it comes to.
    expect(cents(ground?.low)).toBeLessThan(1300);
    expect(cents(ground?.high)).toBeGreaterThan(1300);
    for (const end of ['low', 'mean', 'high'] as const)
      expect(quote.price?.[end], end).toBe(Math.max(1300, cents(ground?.[end])));
  });

  it('16: keeps with each line how much of it at what price', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', {
      name: 'Prices',
      validFrom: '2026-08-01',
      lines: [
        priced('hang', 'hanging', { unit: 'lb', amountMinor: 95, taxRate: 0.06 }),
        priced('early', 'percent', { rate: -0.1 }),
      ],
    });
    const { price } = await shop.call('quotes.calculate', ask());
    expect(price?.lines).toEqual([
      {
        code: 'hang', label: 'hang', basis: 'hanging', unit: 'lb', quantity: { low: 400, mean: 400, high: 400 },
        unitPriceMinor: 95, low: 38_000, mean: 38_000, high: 38_000,
      },
      {
        code: 'early', label: 'early', basis: 'percent', unit: null, quantity: { low: -0.1, mean: -0.1, high: -0.1 },
        unitPriceMinor: 38_000, low: -3800, mean: -3800, high: -3800,
      },
      {
        code: 'tax', label: 'Tax', basis: 'tax', unit: null, quantity: null, unitPriceMinor: null,
        low: 2052, mean: 2052, high: 2052, // 6 % of $380 − $38
      },
    ]); // prettier-ignore
  });
});
