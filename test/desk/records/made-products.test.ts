/** Products of the smokehouse in the record book of the animals whose meat is in them. */
import { expect, it } from 'vitest';
import { freshDesk } from '../fresh-desk.ts';
import { addRecipe, opened, stuffed, trimOf } from '../smokehouse/made-of.ts';
import { PLAIN } from '../recipes/recipe-of.ts';

const LB = 453.59237;

it('tells the animal’s part, the nitrite that went in, what the logs say and what was decided', async () => {
  const shop = await freshDesk();
  const { id, animalId } = await stuffed(shop);
  const made = async () => (await shop.call('records.list', {})).find((row) => row.id === animalId)?.made;
  // Nothing is packed yet.
  expect(await made()).toEqual([]);
  await shop.call('made.pack', { id, count: 80, typed: '83.5' });
  const [one, ...more] = (await made()) ?? [];
  expect(more).toEqual([]);
  expect(one).toMatchObject({
    name: 'M26-001', product: 'Summer Sausage', packages: 80, others: [], heat: 'not-proven', decided: null,
  }); // prettier-ignore
  expect(one?.grams).toBeCloseTo(83.5 * LB, 6);
  // 113 g of 6.25% on 100 lb: 113 × 0.0625 ÷ 45,359.237.
  expect(one?.nitritePpm).toBeCloseTo(155.7, 1);
  const told = { decidedBy: 'Mika Koski', note: 'no logger' } as const;
  const { id: decision } = await shop.call('loads.decide', { madeId: id, decided: 'hold', ...told });
  expect((await made())?.[0]?.decided).toBe('hold');
  await shop.call('loads.decide', { madeId: id, decided: 'not ready to eat', ...told });
  expect((await made())?.[0]?.decided).toBe('not ready to eat');
  await shop.call('loads.voidDecision', { id: decision, reason: 'twice' });
  expect((await made())?.[0]?.decided).toBe('not ready to eat');
});

it('names the other animals in a pooled batch, and divides its packages', async () => {
  const shop = await freshDesk();
  const recipeId = await addRecipe(shop, PLAIN, 'Bulk Sausage');
  const [a, b] = [await trimOf(shop, '30'), await trimOf(shop, '10')];
  const { id } = await opened(shop, recipeId, { [a]: '30', [b]: '10' });
  await shop.call('made.start', { id });
  await shop.call('made.pack', { id, count: 20, typed: '40' });
  const rows = await shop.call('records.list', {});
  const of = (animal: number) => rows.find((row) => row.id === animal);
  expect(of(a)?.made).toMatchObject([
    { packages: 15, others: [of(b)?.ticket], nitritePpm: null, heat: 'not-needed' },
  ]);
  expect(of(b)?.made).toMatchObject([{ packages: 5, others: [of(a)?.ticket] }]);
  expect(of(a)?.made[0]?.grams).toBeCloseTo(30 * LB, 6);
});
