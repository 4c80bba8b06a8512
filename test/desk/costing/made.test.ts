/** What a product of the smokehouse costs and brings, worked by hand. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { freshDesk, type FreshDesk } from '../fresh-desk.ts';
import { PLAIN } from '../recipes/recipe-of.ts';
import { addRecipe, opened, trimOf } from '../smokehouse/made-of.ts';

const LB = 453.59237;
const STICKS = 'Snack sticks';
let shop: FreshDesk;
beforeEach(async () => (shop = await freshDesk()));
afterEach(() => shop.desk.close());

/** 30 lb of trim and 10 lb of pork at $2.00, stuffed at 40 lb, 26 packages of a pound. */
async function batchOfSticks(): Promise<number> {
  const recipeId = await addRecipe(
    shop,
    {
      ...PLAIN,
      meat: [
        { kind: 'game', name: 'Game', share: 0.75, fat: null },
        { kind: 'pork', name: 'Pork', share: 0.25, fat: 0.5 },
      ],
      finish: 'cooked',
      lossKind: 'sticks',
    },
    STICKS,
  );
  const animalId = await trimOf(shop, '30');
  const lot = await shop.call('fat.receive', {
    source: 'pork-trim-50', typed: '10', costTyped: '2.00', costUnit: 'lb',
  }); // prettier-ignore
  const { id, batchId } = await opened(shop, recipeId, { [animalId]: '30' });
  await shop.call('grinder.weighIn', { batchId, fatLotId: lot.id, part: 'fat added', typed: '10' });
  await shop.call('made.start', { id });
  await shop.call('made.stage', { id, stage: 'stuffed', typed: '40' });
  await shop.call('made.pack', { id, count: 26, typed: '26' });
  await shop.call('grinder.finish', { batchId });
  return animalId;
}

async function figures(ingredientsPerUnit: string): Promise<void> {
  const service = { minutesPerAnimal: '60', minutesPerUnit: '2', packageSize: '1 lb' };
  await shop.call('costing.save', {
    wagePerHour: '20', overheadPerHour: '10', packagingPerPackage: '0.25', ingredientsPerUnit, wantedMargin: 0.2,
    services: { cutting: service, grinding: service, products: service },
  }); // prettier-ignore
}

describe('a product of the smokehouse', () => {
  it('costs its work, packages, bought meat and ingredients, and brings its price and that of the meat', async () => {
    await figures('0.40');
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
        { ...line, code: 'sticks', label: 'Sticks', basis: 'product', amountMinor: 600, products: [STICKS] },
        { ...line, code: 'pork', label: 'Pork', basis: 'fat', amountMinor: 300, fatSource: 'pork-trim-50' },
      ],
    }); // prettier-ignore
    const animalId = await batchOfSticks();
    await shop.call('bills.create', { animalId, confirmed: true });
    const { made } = await shop.call('costing.get', {});
    expect(made).toHaveLength(1);
    const [sticks] = made;
    expect(sticks).toMatchObject({ product: STICKS, batches: 1 });
    expect(sticks!.packedGrams / LB).toBeCloseTo(26, 6);
    // An hour and 30 lb at 2 minutes are 2 hours at $30: 6000 cents on 26 lb.
    expect(sticks!.parts.work).toBeCloseTo(6000 / 26, 6);
    // 26 packages at 25 cents; 10 lb of pork at $2.00; 40 cents a pound.
    expect(sticks!.parts.packaging).toBeCloseTo(25, 6);
    expect(sticks!.parts.bought).toBeCloseTo(2000 / 26, 6);
    expect(sticks!.parts.ingredients).toBeCloseTo(40, 6);
    expect(sticks!.cost).toBeCloseTo((6000 + 650 + 2000 + 1040) / 26, 6);
    // $6.00 a pound, and $30.00 for the pork.
    expect(sticks!.fee).toMatchObject({ product: 600, bills: 1 });
    expect(sticks!.fee!.bought).toBeCloseTo(3000 / 26, 6);
    expect(sticks!.margin).toBeCloseTo(1 - 9690 / (26 * 600 + 3000), 6);
  });

  it('has no fee before an animal is billed, and no ingredients where the figure is left empty', async () => {
    await figures('');
    await batchOfSticks();
    const { made, figures: kept } = await shop.call('costing.get', {});
    expect(made).toMatchObject([{ fee: null, margin: null, parts: { ingredients: 0 } }]);
    expect(kept.ingredientsPerKg).toBe(0);
  });

  it('adds its ingredients to what an animal costs', async () => {
    await figures('0');
    const animalId = await batchOfSticks();
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
      lines: [{ ...line, code: 'sticks', label: 'Sticks', basis: 'product', amountMinor: 600, products: [STICKS] }],
    }); // prettier-ignore
    await shop.call('bills.create', { animalId, confirmed: true });
    const before = (await shop.call('costing.get', {})).workCost.products;
    await figures('0.40');
    const after = (await shop.call('costing.get', {})).workCost.products;
    // 26 lb at 40 cents.
    expect(after - before).toBeCloseTo(26 * 40, 6);
  });
});
