import { describe, expect, it } from 'vitest';
import type { Instructions } from '../../../src/bridge/contract.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { grindWants } from '../../../src/desk/grinder/grind-wants.ts';
import { cut, freshDesk, takeIn } from '../fresh-desk.ts';

const LB = 453.59237;
const CRUMB = 10;
const also = (product: string, grams: number) => ({
  product, grams, fat: 'pork-trim-50', targetFat: 0.2, pattyGrams: null,
}); // prettier-ignore
const ORDERS: Instructions = {
  cutsShare: 0.4, primals: [], fat: 'none', targetFat: null, grindProduct: 'Ground', pattyGrams: null,
  alsoGround: [also('Summer sausage', 8 * LB), also('Snack sticks', 5 * LB)],
  packageGrams: LB, pricedExtras: {}, extras: [], note: '',
}; // prettier-ignore
const amounts = (...args: Parameters<typeof grindWants>) =>
  grindWants(...args).map(({ product, grams }) => [product, Math.round(grams / LB)]);

describe('what is wanted from the trim', () => {
  it('is the amounts of their own first, then the rest', () =>
    expect(amounts(ORDERS, [], 30 * LB, CRUMB)).toEqual([
      ['Summer sausage', 8],
      ['Snack sticks', 5],
      ['Ground', 17],
    ]));

  it('is less by what is in a batch of that product already', () => {
    expect(amounts(ORDERS, [{ product: 'Summer sausage', grams: 8 * LB }], 22 * LB, CRUMB)).toEqual([
      ['Snack sticks', 5],
      ['Ground', 17],
    ]);
    expect(amounts(ORDERS, [{ product: 'Ground', grams: 17 * LB }], 13 * LB, CRUMB)).toEqual([
      ['Summer sausage', 8],
      ['Snack sticks', 5],
    ]);
  });

  it('is no more than there is, and the main grind where nothing is left', () => {
    expect(amounts(ORDERS, [], 10 * LB, CRUMB)).toEqual([
      ['Summer sausage', 8],
      ['Snack sticks', 2],
    ]);
    expect(amounts(ORDERS, [], 0, CRUMB)).toEqual([['Ground', 0]]);
  });

  it('adds up to all trim that is left, whatever was ordered and ground', () => {
    const { uniform } = seededRandom(3);
    for (let run = 0; run < 300; run++) {
      const orders = {
        ...ORDERS,
        alsoGround: Array.from({ length: Math.floor(uniform() * 4) }, (_, i) =>
          also(`p${i % 2}`, uniform() * 9000),
        ),
      };
      const left = uniform() * 20_000;
      const wants = grindWants(orders, [{ product: 'p0', grams: uniform() * 9000 }], left, 0);
      expect(wants.reduce((sum, { grams }) => sum + grams, 0)).toBeCloseTo(left, 6);
      expect(wants.every(({ grams }) => grams > 0)).toBe(true);
    }
  });

  it('follows the batches of the book', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { instructions: ORDERS });
    await cut(shop, id, { trim: '30.00' });
    const wants = async () =>
      (await shop.call('grinder.get', {})).waiting[0]?.wants.map(({ product, grams }) => [
        product,
        Math.round((grams / LB) * 100) / 100,
      ]);
    const plan = { animals: [{ id, grams: 8 * LB }], fat: 'none', targetFat: null };
    const { id: batchId } = await shop.call('grinder.start', { ...plan, product: 'Summer sausage' });
    await shop.call('grinder.weighIn', { batchId, animalId: id, part: 'trim', typed: '6.5' });
    expect(await wants()).toEqual([
      ['Summer sausage', 1.5],
      ['Snack sticks', 5],
      ['Ground', 17],
    ]);
  });
});

describe('a batch on the grinder', () => {
  it('tells the patties that its owners ordered of its product, each size once, and the package', async () => {
    const shop = await freshDesk();
    const burger = { ...ORDERS, alsoGround: [], pattyGrams: 113.4, packageGrams: 2 * LB };
    const ids = [];
    for (const instructions of [burger, burger, { ...ORDERS, pattyGrams: null }]) {
      const id = await takeIn(shop, { instructions });
      await cut(shop, id, { trim: '40' });
      ids.push(id);
    }
    const start = async (animals: number[], product: string) => {
      const asked = { animals: animals.map((id) => ({ id, grams: 9 * LB })), fat: 'none', targetFat: null };
      const { id } = await shop.call('grinder.start', { ...asked, product });
      return shop.call('grinder.getBatch', { id });
    };
    expect(await start(ids, 'Ground')).toMatchObject({ patties: [113.4], packageGrams: 2 * LB });
    expect(await start(ids.slice(2), 'Ground')).toMatchObject({ patties: [], packageGrams: LB });
    expect(await start(ids, 'Summer sausage')).toMatchObject({ patties: [] });
  });

  it('tells the fat that its plan adds, and the fat of each cut sheet', async () => {
    const shop = await freshDesk();
    const lean = { ...ORDERS, alsoGround: [], fat: 'none', targetFat: null };
    const [first, second] = [
      await takeIn(shop, { instructions: lean }),
      await takeIn(shop, { instructions: lean }),
    ];
    for (const id of [first, second]) await cut(shop, id, { trim: '40', 'fat saved': '5' });
    await shop.call('fat.receive', { source: 'pork-back-fat', typed: '40' });
    const start = async (id: number, fat: string, targetFat: number | null) => {
      const asked = { animals: [{ id, grams: 9 * LB }], fat, targetFat, product: 'Ground' };
      return shop.call('grinder.getBatch', { id: (await shop.call('grinder.start', asked)).id });
    };
    const { ticket } = await shop.call('animals.get', { id: first });
    expect(await start(first, 'pork-back-fat', 0.2)).toMatchObject({
      addedFat: 'pork-back-fat',
      orders: [{ ticket, wants: [{ product: 'Ground', fat: 'none', targetFat: null }] }],
    });
    expect((await start(first, 'own', 0.15)).addedFat).toBe('own');
    expect((await start(first, 'none', null)).addedFat).toBe('none');
    // Elk trim has more than 2 % of its own: nothing was added, and nobody asked for none.
    expect((await start(second, 'pork-back-fat', 0.02)).addedFat).toBeNull();
  });
});
