/** Ground meat packed at the Table without a batch: not traced, so what may have met a positive animal's meat is named. */
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const HOUR = 3600;

async function packAtTable(shop: FreshDesk, animalId: number, product: string): Promise<void> {
  shop.wait(HOUR);
  await cut(shop, animalId, { trim: '20' });
  shop.wait(HOUR);
  await shop.call('table.weigh', { animalId, stage: 'packed', part: 'package', product, count: 10, typed: '19' });
} // prettier-ignore

async function grind(shop: FreshDesk, animalId: number): Promise<void> {
  shop.wait(HOUR);
  await cut(shop, animalId, { trim: '20' });
  const { id: batchId } = await shop.call('grinder.start', {
    animals: [{ id: animalId }], fat: 'none', targetFat: null, product: 'Summer sausage',
  }); // prettier-ignore
  await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed: '20' });
  shop.wait(HOUR);
  await shop.call('grinder.pack', { batchId, product: 'Summer sausage', count: 10, typed: '19' });
}

async function positive(shop: FreshDesk, id: number): Promise<void> {
  await shop.call('animals.hold', { id, reason: 'sample', sample: 'L26-118' });
  await shop.call('animals.testResult', { id, result: 'positive' });
}

describe('ground meat packed at the Table without a batch', () => {
  it('is named on the list of a positive animal that was ground in a batch, until the grinder was cleaned', async () => {
    const shop = await freshDesk();
    const ids: number[] = [];
    for (let i = 0; i < 5; i++) ids.push(await takeIn(shop, { hunter: { name: `Hunter ${i}`, phone: `555-010${i}` } }));
    const [before = 0, sick = 0, after = 0, steaks = 0, late = 0] = ids;
    await packAtTable(shop, before, 'Ground');
    await grind(shop, sick);
    await packAtTable(shop, after, 'Patties');
    await packAtTable(shop, steaks, 'Steaks');
    shop.wait(HOUR);
    await shop.call('grinder.saveCleaning', { how: 'taken apart and washed' });
    await packAtTable(shop, late, 'Ground');
    await positive(shop, sick);
    const { affects } = await shop.call('animals.get', { id: sick });
    expect(affects).toMatchObject({ animals: [], ownUntraced: false });
    expect(affects?.untraced).toMatchObject([
      { id: after, ticket: '26-0003', phone: '555-0102', batches: ['Patties'], packages: 10, toCall: true },
    ]);
    await shop.call('animals.noteAffected', { id: after, sourceId: sick, what: 'called' });
    expect((await shop.call('animals.get', { id: sick })).affects?.untraced).toMatchObject([{ toCall: false }]);
  }); // prettier-ignore

  it('names who was ground after a positive animal that was packed so itself', async () => {
    const shop = await freshDesk();
    const [early, sick, batched, pressed] = [
      await takeIn(shop),
      await takeIn(shop),
      await takeIn(shop),
      await takeIn(shop),
    ];
    await grind(shop, early);
    await packAtTable(shop, sick, 'Venison burger');
    await grind(shop, batched);
    await packAtTable(shop, pressed, 'Bratwurst');
    await positive(shop, sick);
    const { affects } = await shop.call('animals.get', { id: sick });
    expect(affects).toMatchObject({ batches: [], animals: [], ownUntraced: true });
    expect(affects?.untraced.map(({ id, batches }) => [id, batches])).toEqual([
      [batched, ['G26-002']],
      [pressed, ['Bratwurst']],
    ]);
  });

  it('says nothing of a positive animal of which nothing was ground', async () => {
    const shop = await freshDesk();
    const [sick, other] = [await takeIn(shop), await takeIn(shop)];
    await packAtTable(shop, sick, 'Steaks');
    await packAtTable(shop, other, 'Ground');
    await positive(shop, sick);
    expect((await shop.call('animals.get', { id: sick })).affects).toBeNull();
  });
});
