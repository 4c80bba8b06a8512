/** Why a bill is not the quote: parts that add up to the difference, to the cent. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { QuoteDifference } from '../../../src/bridge/contract.ts';
import { splitDifference, type Side } from '../../../src/desk/bills/difference.ts';
import { answeredOf } from '../../../src/desk/pricing/quote-saved.ts';
import { whyItDiffers } from '../../../src/ui/bill/difference-words.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { cut, takeIn, type FreshDesk } from '../fresh-desk.ts';
import { priced, pricedShop } from '../pricing/priced-shop.ts';

/** What a quote rested on, as it was kept before figures had a grade. */
const EARLIER = { ownAnimals: 0, relatives: false, source: 'A study', weightSource: '' };

const format = makeFormat({ unit: 'lb', step: 0.05, locale: 'en-US', currency: 'USD' });
const LB = 453.59237;
const hang = (quantity: number, unitPriceMinor: number, amountMinor: number, unit: 'lb' | 'kg' = 'lb'): Side => ({
  basis: 'hanging', quantity, unit, unitPriceMinor, amountMinor,
}); // prettier-ignore

describe('splitDifference', () => {
  it.each<[string, Side, Side, number, number]>([
    // 10 lb more at $0.95 = $9.50; then 5 cents on each of 30 lb = $1.50.
    ['more and dearer', hang(20, 95, 1900), hang(30, 100, 3000), 950, 150],
    ['more at the same price', hang(84.5, 115, 9718), hang(90, 115, 10_350), 632, 0],
    ['the same at another price', hang(84.5, 115, 9718), hang(84.5, 120, 10_140), 0, 422],
    ['less and cheaper', hang(30, 100, 3000), hang(20, 95, 1900), -1000, -100],
    ['nothing else', hang(20, 95, 1900), hang(20, 95, 1900), 0, 0],
    // 10 kg are 22.0462262 lb: at $1.00 a pound $22.05, $2.05 more than for 20 lb; the rest is the price.
    ['by another unit', hang(20, 100, 2000), hang(10, 250, 2500, 'kg'), 205, 295],
  ])('%s', (_, quoted, billed, moreMinor, priceMinor) => {
    expect(splitDifference(quoted, billed)).toEqual({ moreMinor, priceMinor });
  });

  it('takes a percentage as the price and its sum as the amount', () => {
    const quoted = {
      basis: 'percent',
      quantity: -0.1,
      unit: null,
      unitPriceMinor: 30_000,
      amountMinor: -3000,
    };
    const billed = { ...quoted, quantity: -0.15, unitPriceMinor: 40_000, amountMinor: -6000 };
    // 10 % of $100 more = −$10; 5 % more of $400 = −$20.
    expect(splitDifference(quoted, billed)).toEqual({ moreMinor: -1000, priceMinor: -2000 });
  });

  it('adds up to the difference, whatever the amounts', () => {
    const side = fc.record({
      quantity: fc.integer({ min: 1, max: 100_000 }).map((n) => n / 100),
      unitPriceMinor: fc.integer({ min: 0, max: 50_000 }),
      amountMinor: fc.integer({ min: -1_000_000, max: 1_000_000 }),
      unit: fc.constantFrom('lb' as const, 'kg' as const, null),
      basis: fc.constantFrom('hanging', 'percent'),
    });
    fc.assert(
      fc.property(side, side, (quoted, billed) => {
        const { moreMinor, priceMinor } = splitDifference(quoted, { ...billed, basis: quoted.basis });
        expect(moreMinor + priceMinor).toBe(billed.amountMinor - quoted.amountMinor);
      }),
      { numRuns: 2000 },
    );
  });
});

const ORDERS = {
  cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: LB, extras: [], note: '',
}; // prettier-ignore

/** Quoted by phone at 380 lb, hung at 400 lb. */
async function quotedElk(shop: FreshDesk): Promise<number> {
  const { id: quoteId } = await shop.call('quotes.save', {
    species: 'elk', brought: 'skinned', stage: 'hanging', typed: '380', instructions: ORDERS, hunterName: 'Dana',
  }); // prettier-ignore
  return takeIn(shop, { quoteId, instructions: ORDERS });
}
const PRICES = [
  priced('hang', 'hanging', { unit: 'lb', amountMinor: 95, taxRate: 0.06 }),
  priced('grind', 'ground', { unit: 'lb', amountMinor: 45 }),
  priced('early', 'percent', { rate: -0.1 }),
];

describe('the quote beside the bill', () => {
  it('says for each line whether the amount or the price changed, and adds up', async () => {
    const shop = await pricedShop(PRICES);
    const id = await quotedElk(shop);
    await shop.call('prices.save', {
      name: 'Dearer',
      validFrom: '2026-10-01',
      lines: [
        priced('hang', 'hanging', { unit: 'lb', amountMinor: 110, taxRate: 0.06 }),
        priced('grind', 'ground', { unit: 'lb', amountMinor: 45 }),
        priced('early', 'percent', { rate: -0.1 }),
        priced('salting', 'animal', { amountMinor: 500 }),
      ],
    });
    await cut(shop, id, { trim: '100.00' });
    await shop.call('bills.create', { animalId: id, confirmed: true });
    const { quote, bill } = await shop.call('bills.get', { animalId: id });
    if (!quote || !bill) throw new Error('no quote or no bill');
    const by = (code: string): QuoteDifference => {
      const line = quote.lines.find((one) => one.code === code);
      if (!line) throw new Error(`no ${code}`);
      return line;
    };
    // 20 lb more at $0.95 = $19.00; 15 cents on each of 400 lb = $60.00.
    expect(by('hang').split).toEqual({ moreMinor: 1900, priceMinor: 6000 });
    expect(whyItDiffers(by('hang'), format)).toEqual([
      '400.00 lb instead of 380.00 lb: +$19.00',
      '$1.10 / lb instead of $0.95 / lb: +$60.00',
    ]);
    expect(whyItDiffers(by('grind'), format)).toEqual(['quoted, not charged']);
    expect(whyItDiffers(by('salting'), format)).toEqual(['not in the quote']);
    expect(whyItDiffers(by('tax'), format)).toEqual(['based on the lines above']);
    // The discount is of another sum: $440.00 + $5.00 instead of $361.00 and the grind.
    expect(by('early').split?.priceMinor).toBe(0);
    expect(whyItDiffers(by('early'), format)[0]).toMatch(/^of \$445\.00 instead of \$/);
    const sum = quote.lines.reduce((total, { differenceMinor }) => total + differenceMinor, 0);
    expect(sum).toBe(bill.totalMinor - quote.totalMinor);
    for (const { split, differenceMinor } of quote.lines)
      if (split) expect(split.moreMinor + split.priceMinor).toBe(differenceMinor);
  });

  it('opens a quote saved before its amounts were kept, and says so', () => {
    const old = { code: 'hang', label: 'Hanging', low: 1, mean: 36_100, high: 3 };
    const price = { currency: 'USD', lines: [old], low: 1, mean: 36_100, high: 3, exampleBook: false };
    const { price: read } = answeredOf({ answered: JSON.stringify({ price, restsOn: EARLIER }) });
    expect(read?.lines).toEqual([{ ...old, basis: '', quantity: null, unit: null, unitPriceMinor: null }]);
    const line = {
      code: 'hang', label: 'Hanging', quotedMinor: 36_100, billedMinor: 38_000, differenceMinor: 1900,
      quoted: null, billed: { basis: 'hanging', quantity: 400, unit: 'lb' as const, unitPriceMinor: 95 }, split: null,
    }; // prettier-ignore
    expect(whyItDiffers(line, format)).toEqual(['the quote is too old to show amounts']);
  });
});
