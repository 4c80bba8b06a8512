/** Water that smoked and dried products lose is no residue of the grinder. */
import { expect, it } from 'vitest';
import { cut, freshDesk, takeIn } from '../fresh-desk.ts';
import { stuffed } from '../smokehouse/made-of.ts';

it('tells what the smoker took apart from what the grinder kept', async () => {
  const shop = await freshDesk();
  const id = await takeIn(shop, {}, '100');
  await cut(shop, id, { 'whole cuts': '20', trim: '50', bone: '20', sinew: '3', damage: '1' });
  for (const [product, typed] of [
    ['Ground', '19'],
    ['Summer sausage', '21'],
  ] as const) {
    shop.wait(60);
    const { id: batchId } = await shop.call('grinder.start', {
      animals: [{ id }], fat: 'none', targetFat: null, product,
    }); // prettier-ignore
    await shop.call('grinder.weighIn', { batchId, animalId: id, part: 'trim', typed: '20', confirmed: true });
    if (product !== 'Ground')
      await shop.call('grinder.weighIn', { batchId, animalId: id, part: 'trim', typed: '10' });
    await shop.call('grinder.pack', { batchId, product, count: 20, typed });
    expect((await shop.call('grinder.getBatch', { id: batchId })).losesWater).toBe(product !== 'Ground');
    await shop.call('grinder.finish', { batchId });
  }
  await shop.call('animals.setStage', { id, stage: 'packing' });
  const view = await shop.call('season.pounds', {});
  const lb = (grams: number): number => Number((grams / 453.59237).toFixed(6));
  // 20 lb in and 19 lb out of the ground; 30 lb in and 21 lb out of the sausage.
  expect(lb(view.grinder.lossGrams)).toBe(1);
  expect(lb(view.grinder.driedGrams)).toBe(9);
  expect(view.losses.map(({ what }) => what)).toEqual(expect.arrayContaining(['grinder', 'smokehouse']));
});

it('tells of each product what was added, packed and lost in heat, to the gram', async () => {
  const shop = await freshDesk();
  // 100 lb of trim, 794 g of salt and 113 g of cure; 101.5 lb were stuffed and 83.5 lb packed.
  const { id } = await stuffed(shop);
  await shop.call('made.pack', { id, count: 80, typed: '83.5' });
  const [made, ...more] = (await shop.call('season.pounds', {})).made;
  expect(more).toEqual([]);
  expect(made).toMatchObject({ product: 'Summer Sausage', batches: 1, addedGrams: 907 });
  const lb = (grams = NaN): number => Number((grams / 453.59237).toFixed(6));
  expect([lb(made?.blockGrams), lb(made?.packedGrams), lb(made?.heatGrams)]).toEqual([100, 83.5, 18]);
  expect(made?.leftGrams).toBeCloseTo(907 - 1.5 * 453.59237, 6);
  expect((await shop.call('season.pounds', { species: 'moose' })).made).toEqual([]);
});
