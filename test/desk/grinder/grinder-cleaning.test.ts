/** Held meat through the grinder: the cleaning after it is recorded, and what went through in between is listed. */
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, inBook, takeIn, type FreshDesk } from '../fresh-desk.ts';

const MINUTE = 60;

/** Grinds the trim of one animal by itself. */
async function grind(shop: FreshDesk, animalId: number): Promise<number> {
  shop.wait(10 * MINUTE);
  const { id } = await shop.call('grinder.start', {
    animals: [{ id: animalId }], fat: 'none', targetFat: null, product: 'Ground',
  }); // prettier-ignore
  await shop.call('grinder.weighIn', { batchId: id, animalId, part: 'trim', typed: '30' });
  shop.wait(5 * MINUTE);
  await shop.call('grinder.pass', { batchId: id, plate: '4.5 mm' });
  shop.wait(5 * MINUTE);
  await shop.call('grinder.pack', { batchId: id, product: 'Ground', count: 30, typed: '29' });
  return id;
}

async function trimmed(shop: FreshDesk, count: number): Promise<number[]> {
  const ids: number[] = [];
  for (let i = 0; i < count; i++) {
    const id = await takeIn(shop, { hunter: { name: `Hunter ${i}` } });
    await cut(shop, id, { trim: '30' });
    ids.push(id);
  }
  return ids;
}

/** Four batches: one before, the held one, one right after it, and one after the grinder was cleaned. */
async function day(shop: FreshDesk) {
  await shop.call('shop.saveSettings', { changes: { cutWhileHeld: true } });
  const [before = 0, held = 0, next = 0, late = 0] = await trimmed(shop, 4);
  const batches = { before: await grind(shop, before), held: 0, next: 0, late: 0 };
  await shop.call('animals.hold', { id: held, reason: 'sample', sample: 'L1' });
  batches.held = await grind(shop, held);
  batches.next = await grind(shop, next);
  return { held, late, batches };
}

describe('the cleaning of the grinder', () => {
  it('is asked for after held meat until it is recorded, and what went through is listed', async () => {
    const shop = await freshDesk();
    const { held, late, batches } = await day(shop);
    const open = () => shop.call('animals.get', { id: held });
    const next = { id: batches.next, name: 'G26-003', tickets: ['26-0003'] };
    expect((await open()).heldGrinds).toEqual([
      { batchId: batches.held, batch: 'G26-002', held: [{ ticket: '26-0002', positive: false }], cleaned: null, between: [next] },
    ]); // prettier-ignore
    expect((await shop.call('grinder.get', {})).uncleaned).toEqual([
      { batchId: batches.held, batch: 'G26-002', held: [{ ticket: '26-0002', positive: false }], since: 1 },
    ]);

    shop.wait(MINUTE);
    const how = 'taken apart and washed';
    await shop.call('grinder.saveCleaning', { batchId: batches.held, how, by: 'RO' });
    batches.late = await grind(shop, late);
    expect((await open()).heldGrinds).toMatchObject([{ cleaned: { how, by: 'RO' }, between: [next] }]);
    const look = await shop.call('grinder.get', {});
    expect(look.uncleaned).toEqual([]);
    expect(look.cleanings).toMatchObject([{ how, by: 'RO' }]);

    const page = (id: number) => shop.call('grinder.getBatch', { id });
    expect((await page(batches.held)).heldGrind).toMatchObject({ between: [next] });
    expect((await page(batches.next)).throughBefore).toEqual([
      { batchId: batches.held, batch: 'G26-002', held: [{ ticket: '26-0002', positive: false }] },
    ]);
    for (const id of [batches.before, batches.late, batches.held])
      expect((await page(id)).throughBefore).toEqual([]);
    expect((await page(batches.next)).heldGrind).toBeNull();
  });

  it('counts only once the held batch was ground', async () => {
    const shop = await freshDesk();
    const { batches } = await day(shop);
    await shop.call('grinder.saveCleaning', { how: 'washed' });
    shop.wait(MINUTE);
    await shop.call('grinder.pass', { batchId: batches.held, plate: '3 mm' });
    expect((await shop.call('grinder.getBatch', { id: batches.held })).heldGrind?.cleaned).toBeNull();
  });

  it('lists a batch that was weighed in before the held one and packed after it', async () => {
    const shop = await freshDesk();
    await shop.call('shop.saveSettings', { changes: { cutWhileHeld: true } });
    const [slow = 0, held = 0] = await trimmed(shop, 2);
    const { id: batchId } = await shop.call('grinder.start', {
      animals: [{ id: slow }], fat: 'none', targetFat: null, product: 'Ground',
    }); // prettier-ignore
    await shop.call('grinder.weighIn', { batchId, animalId: slow, part: 'trim', typed: '30' });
    await shop.call('animals.hold', { id: held, reason: 'sample', sample: 'L1' });
    await grind(shop, held);
    const between = async () => (await shop.call('animals.get', { id: held })).heldGrinds[0]?.between;
    expect(await between()).toEqual([]);
    shop.wait(MINUTE);
    await shop.call('grinder.pack', { batchId, product: 'Ground', count: 30, typed: '29' });
    expect(await between()).toMatchObject([{ id: batchId }]);
  });

  it('concerns nobody any more once nothing was detected', async () => {
    const shop = await freshDesk();
    const { held, batches } = await day(shop);
    await shop.call('animals.testResult', { id: held, result: 'not detected' });
    expect((await shop.call('animals.get', { id: held })).heldGrinds).toEqual([]);
    expect((await shop.call('grinder.get', {})).uncleaned).toEqual([]);
    expect((await shop.call('grinder.getBatch', { id: batches.next })).throughBefore).toEqual([]);
  });

  it('is traced for a hold that came after the meat was ground', async () => {
    const shop = await freshDesk();
    const [sick = 0, next = 0] = await trimmed(shop, 2);
    await grind(shop, sick);
    const after = await grind(shop, next);
    await shop.call('animals.hold', { id: sick, reason: 'sample', sample: 'L1' });
    await shop.call('animals.testResult', { id: sick, result: 'positive' });
    expect((await shop.call('animals.get', { id: sick })).heldGrinds).toMatchObject([
      { held: [{ positive: true }], cleaned: null, between: [{ id: after }] },
    ]);
  });

  it('is voided with a reason, once, and stays in the book', async () => {
    const shop = await freshDesk();
    const { batches } = await day(shop);
    const { id } = await shop.call('grinder.saveCleaning', { how: 'washed' });
    await shop.call('grinder.voidCleaning', { cleaningId: id, reason: 'not done yet' });
    expect((await shop.call('grinder.getBatch', { id: batches.held })).heldGrind?.cleaned).toBeNull();
    expect(await shop.problem('grinder.voidCleaning', { cleaningId: id, reason: 'x' })).toMatchObject({
      code: 'cleaning.voided',
    });
    expect(await shop.problem('grinder.voidCleaning', { cleaningId: 99, reason: 'x' })).toMatchObject({
      code: 'cleaning.unknown',
    });
    expect(await shop.problem('grinder.saveCleaning', { batchId: 99, how: 'washed' })).toMatchObject({
      code: 'batch.unknown',
    });
    expect(() => inBook(shop, (book) => book.db.exec('DELETE FROM grinder_cleaning'))).toThrow(
      /written once/,
    );
  });
});
