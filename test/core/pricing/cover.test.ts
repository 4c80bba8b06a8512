import { describe, expect, it } from 'vitest';
import productsJson from '../../../resources/products.json' with { type: 'json' };
import exampleJson from '../../../resources/example-prices.json' with { type: 'json' };
import { lacksPrice } from '../../../src/core/pricing/cover.ts';
import { priceLines, type Amounts, type PriceLine } from '../../../src/core/pricing/price.ts';
import type { ProductKind } from '../../../src/trade/product.ts';
import { frozen } from '../blend/requests.ts';

const POUND = 453.59237;
const KINDS = { 'summer-sausage': 'sausage', bratwurst: 'sausage', 'jerky-strips': 'jerky', ground: 'grind', roasts: 'whole cuts' } as const; // prettier-ignore

function made(pounds: Readonly<Record<string, number>>, more: Partial<Amounts> = {}): Amounts {
  const products = Object.fromEntries(Object.entries(pounds).map(([code, lb]) => [code, lb * POUND]));
  return { species: 'white-tail', brought: 'skinned', hangingGrams: 0, groundGrams: 0, products, kinds: KINDS, ...more };
} // prettier-ignore
function byLb(code: string, basis: 'product' | 'ground', amountMinor: number, more: Partial<PriceLine> = {}): PriceLine {
  return { code, label: code, basis, unit: 'lb', amountMinor, ...more };
} // prettier-ignore

const grinding = byLb('grinding', 'ground', 45);
const sausage = byLb('sausage', 'product', 325, { kinds: ['sausage'] });
const summer = byLb('summer', 'product', 400, { products: ['summer-sausage'] });

function charged(lines: readonly PriceLine[], amounts: Amounts) {
  const { lines: all, uncovered } = priceLines(frozen({ lines, amounts }));
  return { sums: Object.fromEntries(all.map(({ code, amountMinor }) => [code, amountMinor])), uncovered };
}

describe('what a product is charged as', () => {
  it('51.7 lb of summer sausage by a line for sausage, and not as grinding', () => {
    // 51.7 × $3.25 = $168.025 → $168.03. As grinding alone it was 51.7 × $0.45 = $23.265 → $23.27: $144.76 were lost.
    expect(charged([grinding, sausage], made({ 'summer-sausage': 51.7 }))).toEqual({ sums: { sausage: 16_803 }, uncovered: [] }); // prettier-ignore
    expect(16_803 - 2327).toBe(14_476);
  });

  it('the line that names it, and not the one for its kind as well', () => {
    // 10 lb × $4.00; the bratwurst beside it 4 lb × $3.25.
    expect(charged([grinding, sausage, summer], made({ 'summer-sausage': 10, bratwurst: 4 })).sums).toEqual({
      summer: 4000,
      sausage: 1300,
    });
  });

  it('both of two lines that name it', () => {
    const smoking = byLb('smoking', 'product', 100, { products: ['SUMMER-sausage', 'bratwurst'] });
    expect(charged([summer, smoking, sausage], made({ 'summer-sausage': 10, bratwurst: 4 })).sums).toEqual({
      summer: 4000,
      smoking: 1400,
    });
  });

  it('nothing at all, and that is told, where no line covers sausage, jerky or something on no list', () => {
    const amounts = made({ 'summer-sausage': 51.7, 'jerky-strips': 3, Landjäger: 2, roasts: 20 }, { kinds: { ...KINDS, Landjäger: 'unlisted' } }); // prettier-ignore
    expect(charged([grinding], amounts)).toEqual({ sums: {}, uncovered: ['summer-sausage', 'jerky-strips', 'Landjäger'] }); // prettier-ignore
  });

  it('as the line that was chosen for it, as long as no other covers it', () => {
    const amounts = made({ 'summer-sausage': 10, 'jerky-strips': 2 }, { chargeAs: { 'summer-sausage': 'grinding', 'jerky-strips': 'sausage' } }); // prettier-ignore
    expect(charged([grinding, summer, sausage], amounts)).toEqual({ sums: { summer: 4000, sausage: 650 }, uncovered: [] }); // prettier-ignore
    expect(charged([grinding], amounts)).toEqual({ sums: { grinding: 450 }, uncovered: ['jerky-strips'] });
    // A line that is for other animals, or for no weight of a product, is none to charge it as.
    const flat: PriceLine = { code: 'grinding', label: '', basis: 'package', amountMinor: 100 };
    expect(charged([flat], amounts).uncovered).toEqual(['summer-sausage', 'jerky-strips']);
  });

  it('plain grind with the grinding; where nobody charges for that, with the cutting', () => {
    expect(charged([grinding], made({ ground: 40 }, { groundGrams: 10 * POUND })).sums).toEqual({
      grinding: 2250,
    });
    const cutting: PriceLine = { code: 'cut', label: '', basis: 'animal', amountMinor: 11_000 };
    expect(charged([cutting], made({ ground: 40 })).uncovered).toEqual([]);
    expect(charged([sausage], made({ ground: 40 })).uncovered).toEqual(['ground']);
  });
});

describe('the supplied prices', () => {
  it.each(['lb', 'kg'] as const)('by %s bill something for every supplied product', (unit) => {
    const lines = exampleJson[unit].map(({ amountMinor, rate, unit: by, fatSource, products, kinds, ...rest }) => ({
      ...rest, ...(amountMinor !== null && { amountMinor }), ...(rate !== null && { rate }), ...(by && { unit: by }),
      ...(fatSource && { fatSource }), products, kinds, species: rest.species ?? undefined, brought: rest.brought ?? undefined,
      ...(rest.basis === 'extra' && { extra: rest.code }),
    })) as unknown as PriceLine[]; // prettier-ignore
    const works = productsJson.filter(({ kind }) => ['grind', 'sausage', 'jerky'].includes(kind));
    expect(works.length).toBeGreaterThan(8);
    for (const { code, kind } of productsJson) {
      const kinds = { [code]: kind as ProductKind };
      const amounts = made({ [code]: 10 }, { kinds });
      const { lines: all, uncovered } = priceLines({ lines, amounts });
      const own = all.filter(({ basis }) => basis === 'product' || basis === 'ground');
      expect(uncovered, code).toEqual([]);
      expect(lacksPrice(lines, code, kind as ProductKind), code).toBe(false);
      // What is work of its own is charged by its own pound; the rest with the animal.
      const sum = (some: typeof all): number =>
        some.reduce((total, { amountMinor }) => total + amountMinor, 0);
      expect(sum(works.some((one) => one.code === code) ? own : all), code).toBeGreaterThan(0);
    }
  });
});
