/** What is closed stays as it is until it is opened again: rules that no window needs to keep. */
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, inBook, takeIn, type FreshDesk } from '../fresh-desk.ts';

const GRIND = { fat: 'none', targetFat: null, product: 'Ground' } as const;
const ORDERS = {
  cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 453.59237, extras: [], note: '',
}; // prettier-ignore

/** A deer that was cut, with trim and own fat, and picked up. */
async function pickedUp(shop: FreshDesk) {
  const id = await takeIn(shop);
  await cut(shop, id, { 'whole cuts': '100', trim: '60', 'fat saved': '10' });
  await shop.call('table.stateNone', { animalId: id, part: 'damage' });
  await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
  await shop.call('pickup.release', { id, to: 'Dana Whitlock', unpaidBy: 'RO' });
  return id;
}

/** A finished batch of one animal's trim. */
async function finished(shop: FreshDesk, out = '58') {
  const animalId = await takeIn(shop);
  await cut(shop, animalId, { trim: '60', 'fat saved': '10' });
  const { id: batchId } = await shop.call('grinder.start', { ...GRIND, animals: [{ id: animalId }] });
  const into = await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed: '60' });
  const pack = await shop.call('grinder.pack', { batchId, product: 'Ground', count: 50, typed: out });
  await shop.call('grinder.finish', { batchId });
  return { animalId, batchId, into: into.weighingId, pack: pack.weighingId };
}

const CLOSED = { kind: 'refused', code: 'animal.closed' };
const DONE = { kind: 'refused', code: 'batch.done' };

describe('an animal that left', () => {
  it('keeps its weights: none is corrected, voided or added', async () => {
    const shop = await freshDesk();
    const id = await pickedUp(shop);
    const page = await shop.call('animals.get', { id });
    for (const { id: weighingId } of page.weighings) {
      expect(await shop.problem('table.void', { weighingId, reason: 'misread' })).toMatchObject(CLOSED);
      expect(
        await shop.problem('table.correct', { weighingId, typed: '50', reason: 'misread', confirmed: true }),
      ).toMatchObject(CLOSED);
    }
    expect(
      await shop.problem('table.weigh', {
        animalId: id,
        stage: 'cut',
        part: 'bone',
        typed: '50',
        confirmed: true,
      }),
    ).toMatchObject(CLOSED);
    const noneId = page.none[0]?.id ?? 0;
    expect(await shop.problem('table.voidNone', { noneId, reason: 'some' })).toMatchObject(CLOSED);
    expect(await shop.problem('animals.saveOrders', { id, instructions: ORDERS })).toMatchObject(CLOSED);
    expect((await shop.call('animals.get', { id })).weighings).toEqual(page.weighings);
    shop.desk.close();
  });

  it('puts neither trim nor own fat into a batch, and its fat is not counted', async () => {
    const shop = await freshDesk();
    const id = await pickedUp(shop);
    const ask = { ...GRIND, animals: [{ id }] };
    expect(await shop.problem('grinder.start', ask)).toMatchObject(CLOSED);
    expect(
      await shop.problem('grinder.plan', { animals: [{ id }], fat: 'none', targetFat: null }),
    ).toMatchObject(CLOSED);
    const lotId = (await shop.call('animals.get', { id })).ownFat?.lotId ?? 0;
    expect(await shop.problem('fat.count', { lotId, typed: '4', reason: 'found' })).toMatchObject(CLOSED);
    expect(await shop.problem('fat.discard', { lotId, reason: 'rancid' })).toMatchObject(CLOSED);
    shop.desk.close();
  });

  it('puts nothing more into a batch that was begun before it left', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '60', 'fat saved': '10' });
    const { id: batchId } = await shop.call('grinder.start', { ...GRIND, animals: [{ id }] });
    const { weighingId } = await shop.call('grinder.weighIn', {
      batchId,
      animalId: id,
      part: 'trim',
      typed: '20',
    });
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    await shop.call('pickup.release', { id, to: 'Dana Whitlock', unpaidBy: 'RO' });
    for (const part of ['trim', 'fat saved'] as const)
      expect(
        await shop.problem('grinder.weighIn', { batchId, animalId: id, part, typed: '5' }),
      ).toMatchObject(CLOSED);
    expect(await shop.problem('table.void', { weighingId, reason: 'misread' })).toMatchObject(CLOSED);
    shop.desk.close();
  });

  it('is opened again with a reason, put right, and handed over on the same day as before', async () => {
    const shop = await freshDesk();
    const id = await pickedUp(shop);
    expect((await shop.call('animals.get', { id })).ownFat?.leftGrams).toBe(0);
    expect(await shop.problem('animals.reopen', { id, reason: ' ' })).toMatchObject({ code: 'text.needed' });
    shop.wait(2 * 86_400);
    expect(await shop.call('animals.reopen', { id, reason: 'trim was misread', by: 'RO' })).toEqual({
      id,
      stage: 'ready',
    });
    const open = await shop.call('animals.get', { id });
    expect(open).toMatchObject({ stage: 'ready', release: null });
    expect(open.ownFat?.leftGrams).toBeCloseTo(10 * 453.59237, 6);
    const trim = open.weighings.find(({ part }) => part === 'trim')?.id ?? 0;
    await shop.call('table.correct', { weighingId: trim, typed: '66', reason: 'misread', confirmed: true });
    const [waits] = await shop.call('pickup.get', {});
    expect(waits?.handedBefore).toEqual({ to: 'Dana Whitlock', on: '2026-10-10' });
    await shop.call('pickup.release', { id, to: 'Dana Whitlock', on: '2026-10-10', unpaidBy: 'RO' });
    const again = await shop.call('animals.get', { id });
    expect(again).toMatchObject({ stage: 'released', release: { to: 'Dana Whitlock', on: '2026-10-10' } });
    expect(again.ownFat?.leftGrams).toBe(0);
    const history = await shop.call('animals.getHistory', { id });
    expect(history.filter(({ what }) => what === 'released')).toHaveLength(2);
    expect(history).toContainEqual(
      expect.objectContaining({
        what: 'changed', by: 'RO', reason: 'trim was misread',
        changes: [{ field: 'stage', before: 'released', after: 'ready' }],
      }), // prettier-ignore
    );
    const rows = (await shop.call('records.list', {})).filter((row) => row.id === id);
    expect(rows).toMatchObject([{ releasedOn: '2026-10-10', releasedTo: 'Dana Whitlock' }]);
    inBook(shop, ({ db }) => {
      expect(db.prepare('SELECT count(*) FROM release').pluck().get()).toBe(2);
      expect(db.prepare('SELECT release_id, reason, by FROM release_void').all()).toEqual([
        { release_id: 1, reason: 'trim was misread', by: 'RO' },
      ]);
    });
  });

  it('comes back to where it was when it was disposed of by mistake', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '60', 'fat saved': '10' });
    await shop.call('animals.dispose', { id, what: 'all of it', how: 'landfill', reason: 'spoiled' });
    expect(await shop.problem('animals.dispose', { id, what: 'it', how: 'it', reason: 'x' })).toMatchObject(
      CLOSED,
    );
    expect(await shop.call('animals.reopen', { id, reason: 'meant for 26-0002' })).toEqual({
      id,
      stage: 'cutting',
    });
    const open = await shop.call('animals.get', { id });
    expect(open.disposal).toBeNull();
    expect(open.ownFat?.leftGrams).toBeCloseTo(10 * 453.59237, 6);
    await shop.call('animals.dispose', {
      id,
      what: 'all of it',
      how: 'landfill',
      reason: 'spoiled after all',
    });
    expect((await shop.call('animals.get', { id })).disposal?.reason).toBe('spoiled after all');
    expect(await shop.problem('animals.reopen', { id: await takeIn(shop), reason: 'why' })).toMatchObject({
      code: 'animal.not-left',
    });
    shop.desk.close();
  });

  it('may be put on hold still, and a late result is kept', async () => {
    const shop = await freshDesk();
    const id = await pickedUp(shop);
    await shop.call('animals.hold', { id, reason: 'sample', sample: 'L26-7' });
    await shop.call('animals.testResult', { id, result: 'positive' });
    expect((await shop.call('animals.get', { id })).hold?.positive).toBe(true);
    shop.desk.close();
  });
});

describe('a finished batch', () => {
  it('keeps its weights, in and out, and takes no pass', async () => {
    const shop = await freshDesk();
    const { batchId, animalId, into, pack } = await finished(shop);
    const before = await shop.call('grinder.getBatch', { id: batchId });
    for (const weighingId of [into, pack]) {
      expect(await shop.problem('table.void', { weighingId, reason: 'misread' })).toMatchObject(DONE);
      expect(
        await shop.problem('table.correct', { weighingId, typed: '59', reason: 'misread', confirmed: true }),
      ).toMatchObject(DONE);
    }
    expect(
      await shop.problem('grinder.pack', { batchId, product: 'Ground', count: 1, typed: '1' }),
    ).toMatchObject(DONE);
    expect(
      await shop.problem('grinder.weighIn', { batchId, animalId, part: 'fat saved', typed: '1' }),
    ).toMatchObject(DONE);
    expect(await shop.problem('grinder.pass', { batchId, plate: '4.5 mm' })).toMatchObject(DONE);
    await shop.call('grinder.fatTest', { batchId, percent: 12, method: 'laboratory' });
    expect({ ...(await shop.call('grinder.getBatch', { id: batchId })), fatTests: [] }).toEqual(before);
    shop.desk.close();
  });

  it('is opened again with a reason, put right and finished again', async () => {
    const shop = await freshDesk();
    const { batchId, pack } = await finished(shop);
    expect(await shop.problem('grinder.reopen', { batchId, reason: '' })).toMatchObject({
      code: 'text.needed',
    });
    await shop.call('grinder.reopen', { batchId, reason: 'a tub was left', by: 'RO' });
    expect(await shop.problem('grinder.reopen', { batchId, reason: 'twice' })).toMatchObject({
      code: 'batch.not-done',
    });
    await shop.call('table.correct', { weighingId: pack, typed: '59', reason: 'misread' });
    await shop.call('grinder.finish', { batchId });
    const page = await shop.call('grinder.getBatch', { id: batchId });
    expect(page).toMatchObject({ state: 'done', reopened: [{ reason: 'a tub was left', by: 'RO' }] });
    expect(page.outGrams).toBeCloseTo(59 * 453.59237, 6);
    shop.desk.close();
  });

  it('teaches what its fat test said anew once a weight of it was put right', async () => {
    const shop = await freshDesk();
    const { batchId, animalId, into } = await finished(shop);
    await shop.call('grinder.fatTest', { batchId, percent: 4, method: 'laboratory' });
    const fatOf = async () => {
      const id = await takeIn(shop);
      await cut(shop, id, { trim: '20' });
      const { waiting } = await shop.call('grinder.get', {});
      return waiting.find((row) => row.id === id)?.trimFat.mean;
    };
    const before = await fatOf();
    await shop.call('grinder.reopen', { batchId, reason: 'own fat was left out' });
    await shop.call('table.void', { weighingId: into, reason: 'misread' });
    await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed: '55' });
    await shop.call('grinder.weighIn', { batchId, animalId, part: 'fat saved', typed: '5' });
    await shop.call('grinder.finish', { batchId });
    expect(await fatOf()).not.toBeCloseTo(before ?? 0, 5);
    shop.desk.close();
  });
});

describe('own fat of an animal that is opened again', () => {
  it('is not on hand again where it was thrown out before, whatever was said of it', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '60', 'fat saved': '10' });
    const lotId = (await shop.call('animals.get', { id })).ownFat?.lotId ?? 0;
    await shop.call('fat.discard', { lotId, reason: 'disposed of with its animal' });
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    await shop.call('pickup.release', { id, to: 'Dana Whitlock', unpaidBy: 'RO' });
    await shop.call('animals.reopen', { id, reason: 'wrong animal' });
    expect((await shop.call('fat.listLots', {}))[0]?.leftGrams).toBe(0);
    shop.desk.close();
  });

  it('stays thrown out where a person did that, in the very words of a disposal, and the animal was disposed of after', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '60', 'fat saved': '10' });
    const lotId = (await shop.call('animals.get', { id })).ownFat?.lotId ?? 0;
    await shop.call('fat.discard', { lotId, reason: 'disposed of with its animal' });
    await shop.call('animals.dispose', { id, what: 'All', how: 'Landfill', reason: 'spoiled' });
    await shop.call('animals.reopen', { id, reason: 'wrong animal' });
    expect((await shop.call('fat.listLots', {}))[0]?.leftGrams).toBe(0);
    shop.desk.close();
  });

  it('comes back where the disposal threw it out, also after a part of it was thrown out in the same words', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '60', 'fat saved': '10' });
    const lotId = (await shop.call('animals.get', { id })).ownFat?.lotId ?? 0;
    await shop.call('fat.discard', { lotId, typed: '4', reason: 'disposed of with its animal' });
    await shop.call('animals.dispose', { id, what: 'All', how: 'Landfill', reason: 'spoiled' });
    expect((await shop.call('fat.listLots', {}))[0]?.leftGrams).toBeCloseTo(0, 6);
    await shop.call('animals.reopen', { id, reason: 'wrong animal' });
    expect((await shop.call('fat.listLots', {}))[0]?.leftGrams).toBeCloseTo(6 * 453.59237, 3);
    shop.desk.close();
  });
});
