import { describe, expect, it } from 'vitest';
import type { Instructions } from '../../../src/bridge/contract.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { makeOf } from '../../../src/desk/quotes/grinds.ts';
import { FATS, speciesOf } from '../../../src/desk/supplied/resources.ts';
import { freshDesk } from '../fresh-desk.ts';

const LB = 453.59237;
const WANTED: Instructions = {
  cutsShare: 0.4, primals: [], fat: 'none', targetFat: null, grindProduct: 'Ground', pattyGrams: null, alsoGround: [],
  packageGrams: LB, pricedExtras: {}, extras: [], note: '',
}; // prettier-ignore
const sausage = (pounds: number, fat = 'pork-trim-50') => ({
  product: 'Summer sausage', grams: pounds * LB, fat, targetFat: 0.2, pattyGrams: null,
}); // prettier-ignore

describe('what a quote makes of the meat', () => {
  const elk = speciesOf('elk');

  it('grinds what has an amount of its own first, then the rest', () => {
    const meat = { cuts: 50 * LB, trim: 40 * LB, ownFat: 2 * LB, trimFat: 0 };
    const { grinds, ownFatKept } = makeOf(meat, { ...WANTED, alsoGround: [sausage(10)] }, elk);
    const pork = FATS.find(({ code }) => code === 'pork-trim-50')!.fat;
    // Lean of 0 % fat: 10 lb at 20 % need 10 × 0.2 / (f − 0.2) of a fat that is f.
    const added = (10 * LB * 0.2) / (pork - 0.2);
    expect(grinds[0]!.boughtGrams).toBeCloseTo(added, 6);
    expect(grinds.map(({ product, grams }) => [product, grams])).toEqual([
      ['Summer sausage', expect.closeTo(10 * LB + added, 6)],
      ['Ground', expect.closeTo(30 * LB, 6)],
    ]);
    expect(ownFatKept).toBe(2 * LB);
  });

  it('takes no more trim than there is, and makes one product of what is ordered twice', () => {
    const meat = { cuts: 0, trim: 12 * LB, ownFat: 0, trimFat: 0.02 };
    const wanted = { ...WANTED, alsoGround: [sausage(8), sausage(8)] };
    const { grinds } = makeOf(meat, wanted, elk);
    expect(grinds.map(({ product }) => product)).toEqual(['Summer sausage']);
    expect(grinds[0]!.grams - grinds[0]!.boughtGrams).toBeCloseTo(12 * LB, 6);
  });

  it('loses and makes no gram: cuts, grinds and kept fat are the meat and the fat bought', () => {
    const { uniform } = seededRandom(11);
    const pick = <T>(from: readonly T[]): T => from[Math.floor(uniform() * from.length)]!;
    for (let run = 0; run < 400; run++) {
      const wish = () => {
        const fat = pick(['none', 'own', 'pork-back-fat', 'pork-trim-50', 'beef-suet']);
        return {
          fat,
          targetFat: fat === 'none' || uniform() < 0.2 ? null : 0.05 + 0.25 * uniform(),
          pattyGrams: null,
        };
      };
      const alsoGround = Array.from({ length: Math.floor(uniform() * 4) }, () => ({
        product: pick(['Summer sausage', 'Bratwurst', 'Ground']),
        grams: 1 + uniform() * 9000,
        ...wish(),
      }));
      const meat = Object.freeze({
        cuts: uniform() * 30_000,
        trim: uniform() * 20_000,
        ownFat: uniform() * 3000,
        trimFat: uniform() * 0.1,
      });
      const { cuts, grinds, ownFatKept } = makeOf(meat, { ...WANTED, ...wish(), alsoGround }, elk);
      const made = grinds.reduce((sum, { grams }) => sum + grams, 0);
      const bought = grinds.reduce((sum, { boughtGrams }) => sum + boughtGrams, 0);
      expect(cuts + made + ownFatKept).toBeCloseTo(meat.cuts + meat.trim + meat.ownFat + bought, 6);
      expect(ownFatKept).toBeGreaterThanOrEqual(0);
      expect(grinds.every(({ grams, boughtGrams }) => grams > 0 && boughtGrams >= 0)).toBe(true);
    }
  });
});

describe('a quote with several grinds', () => {
  const ask = (instructions: Partial<Instructions>) => ({
    species: 'elk', sex: 'male' as const, age: 'adult' as const, brought: 'skinned' as const, stage: 'hanging' as const,
    typed: '400', instructions: { ...WANTED, ...instructions },
  }); // prettier-ignore

  it('adds up at each end of its ranges, and caps an amount by the trim', async () => {
    const shop = await freshDesk();
    const quote = await shop.call(
      'quotes.calculate',
      ask({ alsoGround: [sausage(10), sausage(500, 'none')] }),
    );
    for (const end of ['low', 'mean', 'high'] as const) {
      const trim = quote.parts.find(({ part }) => part === 'trim')!.grams[end];
      const cuts = quote.products.find(({ product }) => product === 'Whole cuts')!.grams[end];
      const ground = quote.products.find(({ product }) => product === 'Summer sausage')!.grams[end];
      expect(ground).toBeCloseTo(trim + quote.fatToBuyGrams[end], 3);
      const own = quote.products.find(({ product }) => product === 'Own fat, saved')?.grams[end] ?? 0;
      const parts = (names: string[]) =>
        quote.parts.reduce((sum, { part, grams }) => sum + (names.includes(part) ? grams[end] : 0), 0);
      expect(cuts + ground + own).toBeCloseTo(
        parts(['wholeCuts', 'trim', 'fatSaved']) + quote.fatToBuyGrams[end],
        3,
      );
    }
    expect(quote.products.map(({ product }) => product)).not.toContain('Ground');
  });

  it('charges a product that has a price by it, the rest as ground', async () => {
    const shop = await freshDesk();
    const line = {
      rate: null,
      unit: 'lb' as const,
      species: null,
      brought: null,
      fatSource: null,
      taxRate: 0,
    };
    await shop.call('prices.save', {
      name: 'Ours',
      validFrom: '2026-10-01',
      lines: [
        { ...line, code: 'sausage', label: 'Sausage', basis: 'product', amountMinor: 300, products: ['Summer sausage'] },
        { ...line, code: 'grind', label: 'Grinding', basis: 'ground', amountMinor: 50 },
      ],
    }); // prettier-ignore
    const quote = await shop.call('quotes.calculate', ask({ alsoGround: [sausage(10, 'none')] }));
    const grams = (name: string) => quote.products.find(({ product }) => product === name)!.grams.mean;
    expect(quote.price?.lines.map(({ code, mean }) => [code, mean])).toEqual([
      ['sausage', 10 * 300],
      ['grind', Math.round((grams('Ground') / LB) * 50)],
    ]);
  });

  it('takes the share kept whole from the primals', async () => {
    const shop = await freshDesk();
    const primals = [{ primal: 'haunch', as: 'steaks' as const, size: '' }];
    const byPiece = await shop.call('quotes.calculate', ask({ cutsShare: 0.9, primals }));
    const byShare = await shop.call('quotes.calculate', ask({ cutsShare: 0.3913 }));
    expect(byPiece.products[0]!.grams.mean).toBeCloseTo(byShare.products[0]!.grams.mean, -2);
  });
});
