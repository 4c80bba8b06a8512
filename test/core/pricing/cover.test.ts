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
function byLb(code: string, basis: 'product' | 'trim' | 'ground', amountMinor: number, more: Partial<PriceLine> = {}): PriceLine {
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

describe('a line by trim', () => {
  const byTrim = byLb('jerky', 'trim', 450, { kinds: ['jerky'] });
  const jerky = (trimLb: number | null, lb: number, recipe: string | null = null, more: Partial<Amounts> = {}) =>
    made({ 'jerky-strips': lb }, {
      made: { 'jerky-strips': [{ recipe, grams: lb * POUND, trimGrams: trimLb === null ? null : trimLb * POUND }] },
      ...more,
    }); // prettier-ignore

  it('charges what went in, not what came out', () => {
    // 20 lb × $4.50; by the 10.4 lb that came out it were $46.80.
    expect(charged([byTrim], jerky(20, 10.4)).sums).toEqual({ jerky: 9000 });
  });

  it('charges nothing where the trim was not weighed, and that is told; another line can be chosen', () => {
    expect(charged([byTrim], jerky(null, 10))).toEqual({ sums: {}, uncovered: ['jerky-strips'] });
    // Bills from before tell no trim at all.
    expect(charged([byTrim], made({ 'jerky-strips': 10 }))).toEqual({
      sums: {},
      uncovered: ['jerky-strips'],
    });
    const chargeAs = { 'jerky-strips': 'sausage' };
    // 10 lb × $3.25.
    expect(charged([byTrim, sausage], jerky(null, 10, null, { chargeAs }))).toEqual({ sums: { sausage: 3250 }, uncovered: [] }); // prettier-ignore
    expect(charged([byTrim], jerky(null, 10, null, { chargeAs: { 'jerky-strips': 'jerky' } })).uncovered).toEqual(['jerky-strips']); // prettier-ignore
  });

  it('for a recipe comes before one for the product, and that before one for its kind', () => {
    const own = byLb('garlic', 'trim', 500, { recipes: ['7'] });
    const named = byLb('strips', 'product', 300, { products: ['jerky-strips'] });
    const all = [byTrim, own, named];
    expect(charged(all, jerky(20, 10, '7')).sums).toEqual({ garlic: 10_000 });
    expect(charged(all, jerky(20, 10, '8')).sums).toEqual({ strips: 3000 });
    expect(charged([byTrim, own], jerky(20, 10, '8')).sums).toEqual({ jerky: 9000 });
    // Two batches of one product, by two recipes.
    const both = made({ 'jerky-strips': 15 }, {
      made: { 'jerky-strips': [{ recipe: '7', grams: 10 * POUND, trimGrams: 20 * POUND }, { recipe: null, grams: 5 * POUND, trimGrams: 9 * POUND }] },
    }); // prettier-ignore
    expect(charged([own], both)).toEqual({ sums: { garlic: 10_000 }, uncovered: ['jerky-strips'] });
    expect(charged(all, both).sums).toEqual({ garlic: 10_000, strips: 1500 });
  });

  it('has a minimum that counts once, only where something was made, and says so', () => {
    const least = { ...byTrim, least: 25, leastLabel: 'jerky (min. 25 lb)' };
    const bill = (amounts: Amounts) =>
      priceLines({ lines: [least], amounts }).lines.map(({ label, quantity, amountMinor }) => [label, quantity, amountMinor]); // prettier-ignore
    // 25 lb × $4.50 = $112.50; 25.5 × $4.50 = $114.75.
    expect(bill(jerky(18.4, 9))).toEqual([['jerky (min. 25 lb)', 25, 11_250]]);
    expect(bill(jerky(25, 12))).toEqual([['jerky', 25, 11_250]]);
    expect(bill(jerky(25.5, 12))).toEqual([['jerky', 25.5, 11_475]]);
    expect(bill(made({}))).toEqual([]);
  });

  it.each([
    [{ least: 0 }, 'price.least'],
    [{ least: Infinity }, 'price.least'],
    [{ least: -1 }, 'price.least'],
    [{ kinds: [] }, 'price.not-named'],
  ])('is refused with %o', (more, code) => {
    expect(() => priceLines({ lines: [{ ...byTrim, ...more }], amounts: jerky(1, 1) })).toThrow(expect.objectContaining({ code })); // prettier-ignore
  });

  it('refuses a trim below zero', () => {
    expect(() => priceLines({ lines: [byTrim], amounts: jerky(-1, 1) })).toThrow(expect.objectContaining({ code: 'amount.negative' })); // prettier-ignore
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
      expect(lacksPrice(lines, { product: code, kind: kind as ProductKind }), code).toBe(false);
      // What is work of its own is charged by its own pound; the rest with the animal.
      const sum = (some: typeof all): number =>
        some.reduce((total, { amountMinor }) => total + amountMinor, 0);
      expect(sum(works.some((one) => one.code === code) ? own : all), code).toBeGreaterThan(0);
    }
  });
});
