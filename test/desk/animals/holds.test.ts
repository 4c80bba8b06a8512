/** What an animal on hold may go through, what a positive result means, and how an animal is done away with. */
import { describe, expect, it } from 'vitest';
import { openRecordBook } from '../../../src/book/book.ts';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const LB = 453.59237;
const BATCH = { fat: 'none', targetFat: null, product: 'Ground' } as const;

async function mayCutHeld(shop: FreshDesk): Promise<void> {
  await shop.call('shop.saveSettings', { changes: { cutWhileHeld: true } });
}

/** An elk with trim and own fat weighed, put on hold afterwards. */
async function heldWithTrim(shop: FreshDesk, name = 'Dana Whitlock'): Promise<number> {
  const id = await takeIn(shop, { hunter: { name, phone: '555-0142' } });
  await cut(shop, id, { trim: '60', 'fat saved': '3' });
  await shop.call('animals.hold', { id, reason: 'sample', sample: 'L26-118' });
  return id;
}

describe('an animal on hold, where the shop waits for the result', () => {
  it('is weighed in and hung, but not cut, packed or moved on, each time with the reason', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { sample: 'L26-118' });
    const refused = {
      kind: 'refused',
      code: 'cut.held',
      with: { ticket: '26-0001', reason: 'sample', sample: 'L26-118' },
    };
    const weigh = (stage: string, part: string, more = {}) =>
      shop.problem('table.weigh', { animalId: id, stage, part, typed: '20', ...more });
    expect(await weigh('cut', 'trim')).toMatchObject(refused);
    expect(await weigh('primal', 'primal', { primal: 'neck' })).toMatchObject(refused);
    expect(await weigh('packed', 'package', { product: 'Steaks', count: 3 })).toMatchObject(refused);
    for (const stage of ['cutting', 'packing', 'ready'])
      expect(await shop.problem('animals.setStage', { id, stage })).toMatchObject(refused);
    await shop.call('table.weigh', { animalId: id, stage: 'received', part: 'carcass', typed: '410' });
    const page = await shop.call('animals.get', { id });
    expect(page).toMatchObject({ stage: 'hanging', hold: { sample: 'L26-118', positive: false } });
    await shop.call('animals.testResult', { id, result: 'not detected' });
    await cut(shop, id, { trim: '20' });
  });

  it('may go back a step, and its weights may be put right', async () => {
    const shop = await freshDesk();
    const id = await heldWithTrim(shop);
    const trim = (await shop.call('animals.get', { id })).weighings.find(({ part }) => part === 'trim');
    await shop.call('table.correct', { weighingId: trim?.id ?? 0, typed: '66' });
    await shop.call('animals.setStage', { id, stage: 'hanging' });
    expect(await shop.problem('animals.setStage', { id, stage: 'cutting' })).toMatchObject({
      code: 'cut.held',
    });
  });

  it('is not ground: no batch is begun with it and nothing of it goes into one', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '60' });
    const batch = await shop.call('grinder.start', { animals: [{ id }], ...BATCH });
    await shop.call('animals.hold', { id, reason: 'sample', sample: '7' });
    expect(await shop.problem('grinder.start', { animals: [{ id }], ...BATCH })).toMatchObject({
      code: 'cut.held',
    });
    const weighIn = { batchId: batch.id, animalId: id, part: 'trim', typed: '60' };
    expect(await shop.problem('grinder.weighIn', weighIn)).toMatchObject({ code: 'cut.held' });
    expect((await shop.call('grinder.get', {})).waiting).toMatchObject([{ id, hold: 'sample' }]);
  });
});

describe('an animal on hold, where the shop cuts before the result', () => {
  it('is cut and ground by itself, never with others, and not handed over', async () => {
    const shop = await freshDesk();
    await mayCutHeld(shop);
    const held = await heldWithTrim(shop);
    const other = await takeIn(shop, { hunter: { name: 'Ana' } });
    await cut(shop, other, { trim: '30' });
    await cut(shop, held, { bone: '50' });
    expect(
      await shop.problem('grinder.start', { animals: [{ id: held }, { id: other }], ...BATCH }),
    ).toMatchObject({ kind: 'refused', code: 'batch.held-alone', with: { ticket: '26-0001' } });
    const alone = await shop.call('grinder.start', { animals: [{ id: held }], ...BATCH });
    await shop.call('grinder.weighIn', { batchId: alone.id, animalId: held, part: 'trim', typed: '60' });
    await shop.call('animals.setStage', {
      id: held,
      stage: 'ready',
      answer: 'weighed again',
      confirmed: true,
    });
    expect(await shop.problem('pickup.release', { id: held, to: 'Dana' })).toMatchObject({
      code: 'release.held',
    });
  });

  it('keeps a batch apart from a hold that came later, on either side', async () => {
    const shop = await freshDesk();
    await mayCutHeld(shop);
    const [one, two] = [await takeIn(shop), await takeIn(shop, { hunter: { name: 'Ana' } })];
    for (const id of [one, two]) await cut(shop, id, { trim: '30' });
    const batch = await shop.call('grinder.start', { animals: [{ id: one }, { id: two }], ...BATCH });
    await shop.call('animals.hold', { id: one, reason: 'sample', sample: '7' });
    const trimOf = (animalId: number) => ({
      batchId: batch.id,
      animalId,
      part: 'trim' as const,
      typed: '12',
    });
    expect(await shop.problem('grinder.weighIn', trimOf(one))).toMatchObject({ code: 'batch.held-alone' });
    // The held one stays out: the other may go on.
    await shop.call('grinder.weighIn', trimOf(two));
    await shop.call('animals.endHold', { id: one, reason: 'entered for another animal' });
    await shop.call('grinder.weighIn', trimOf(one));
    await shop.call('animals.hold', { id: one, reason: 'sample', sample: '8' });
    expect(await shop.problem('grinder.weighIn', { ...trimOf(two), typed: '5' })).toMatchObject({
      code: 'batch.held-alone',
    });
  });
});

describe('a positive result', () => {
  it('stops everything, whatever the rule, and its hold cannot be lifted', async () => {
    const shop = await freshDesk();
    await mayCutHeld(shop);
    const id = await heldWithTrim(shop);
    await shop.call('animals.testResult', { id, result: 'positive' });
    expect((await shop.call('animals.get', { id })).hold).toMatchObject({ positive: true });
    const typed = { animalId: id, stage: 'cut', part: 'bone', typed: '20' };
    expect(await shop.problem('table.weigh', typed)).toMatchObject({ code: 'cut.positive' });
    expect(await shop.problem('animals.setStage', { id, stage: 'packing' })).toMatchObject({
      code: 'cut.positive',
    });
    expect(await shop.problem('grinder.start', { animals: [{ id }], ...BATCH })).toMatchObject({
      code: 'cut.positive',
    });
    expect((await shop.call('grinder.get', {})).waiting).toEqual([]);
    expect(await shop.problem('animals.endHold', { id, reason: 'so' })).toMatchObject({
      code: 'hold.positive',
    });
  });

  it('ends with its disposal: off the rail, its fat thrown out, in the record book, others to be told', async () => {
    const shop = await freshDesk();
    const [id, other] = [
      await takeIn(shop),
      await takeIn(shop, { hunter: { name: 'Ana', phone: '555-0150' } }),
    ];
    await cut(shop, id, { trim: '60', 'fat saved': '3' });
    await cut(shop, other, { trim: '30' });
    await shop.call('grinder.start', { animals: [{ id }, { id: other }], ...BATCH });
    await shop.call('animals.hold', { id, reason: 'sample', sample: 'L26-118' });
    await shop.call('animals.testResult', { id, result: 'positive' });
    const others = [{ batch: 'G26-001', ticket: '26-0002', hunter: 'Ana', phone: '555-0150' }];
    expect((await shop.call('animals.get', { id })).pooledWith).toEqual(others);
    const done = await shop.call('animals.dispose', {
      id,
      what: 'All of it',
      how: 'Lined landfill',
      by: 'RO',
    });
    expect(done.pooledWith).toEqual(others);
    expect(await shop.call('animals.get', { id })).toMatchObject({
      stage: 'disposed',
      disposal: { what: 'All of it', how: 'Lined landfill', on: '2026-10-10', by: 'RO' },
      ownFat: { leftGrams: 0 },
    });
    const rail = await shop.call('rail.get', {});
    expect(rail.hooks.map((hook) => hook.id)).toEqual([other]);
    expect(rail.trimWaiting).toBe(1);
    const [record] = await shop.call('records.list', {});
    expect(record).toMatchObject({
      stage: 'disposed',
      disposedOn: '2026-10-10',
      disposedHow: 'Lined landfill',
    });
    const again = { id, what: 'x', how: 'y' };
    expect(await shop.problem('animals.dispose', again)).toMatchObject({ code: 'animal.closed' });
    shop.desk.close();
    const book = openRecordBook(shop.bookPath, new Date());
    expect(book.audit.of('animal', id).at(-1)).toMatchObject({ act: 'change', reason: 'positive', by: 'RO' });
    book.close();
  });
});

describe('disposal without a positive result', () => {
  it('wants a reason, and a day that can be', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { receivedOn: '2026-10-08' });
    const asked = { id, what: 'Carcass', how: 'Rendering truck' };
    expect(await shop.problem('animals.dispose', asked)).toMatchObject({
      kind: 'invalid',
      code: 'dispose.reason',
      field: 'reason',
    });
    const spoiled = { ...asked, reason: 'Spoiled' };
    expect(await shop.problem('animals.dispose', { ...spoiled, on: '2026-10-11' })).toMatchObject({
      code: 'date.future',
    });
    expect(await shop.problem('animals.dispose', { ...spoiled, on: '2026-10-07' })).toMatchObject({
      code: 'date.disposed-before-received',
    });
    await shop.call('animals.dispose', { ...spoiled, on: '2026-10-09' });
    expect((await shop.call('animals.get', { id })).disposal).toMatchObject({ reason: 'Spoiled' });
    expect((await shop.call('rail.get', {})).hooks).toEqual([]);
  });

  it('throws out the fat saved of it, to the last gram', async () => {
    const shop = await freshDesk();
    const id = await heldWithTrim(shop);
    const before = (await shop.call('fat.listLots', {}))[0];
    expect(before?.leftGrams).toBeCloseTo(3 * LB, 6);
    await shop.call('animals.dispose', { id, what: 'All', how: 'Landfill', reason: 'Condemned' });
    expect((await shop.call('fat.listLots', {}))[0]?.leftGrams).toBe(0);
  });
});

describe('a hold whose result was taken back', () => {
  const taken = async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { sample: 'L1' });
    await shop.call('animals.testResult', { id, result: 'positive' });
    await shop.call('animals.testResult', { id, result: 'none', reason: 'of another animal' });
    return { shop, id };
  };

  it('waits again, and can be lifted once and for all', async () => {
    const { shop, id } = await taken();
    expect((await shop.call('rail.get', {})).hooks[0]?.hold).toBe('sample');
    await shop.call('animals.endHold', { id, reason: 'entered for the wrong animal' });
    expect((await shop.call('rail.get', {})).hooks[0]?.hold).toBeNull();
    expect(await shop.problem('animals.endHold', { id, reason: 'again' })).toMatchObject({
      code: 'hold.none',
    });
    expect(await shop.problem('animals.testResult', { id, result: 'positive', confirmed: true })).toMatchObject({ code: 'hold.none' }); // prettier-ignore
    expect(shop.broken).toEqual([]);
  });
});

describe('a batch that was ground with held meat in it', () => {
  const REASON = { reason: 'weighed into the wrong batch' };

  /** Two animals in one batch, ground as `how` says; the first is put on hold afterwards. */
  async function groundTogether(
    shop: FreshDesk,
    how: 'packed' | 'packed and taken back' | 'passed' | 'not yet',
  ) {
    const [held, other] = [await takeIn(shop), await takeIn(shop)];
    for (const id of [held, other]) await cut(shop, id, { trim: '60' });
    const { id: batchId } = await shop.call('grinder.start', {
      ...BATCH,
      animals: [{ id: held }, { id: other }],
    });
    const into = [];
    for (const animalId of [held, other])
      into.push(await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed: '60' }));
    if (how === 'passed') await shop.call('grinder.pass', { batchId, plate: '4.5 mm' });
    if (how.startsWith('packed')) {
      const { weighingId } = await shop.call('grinder.pack', {
        batchId,
        product: 'Ground',
        count: 90,
        typed: '115',
      });
      if (how !== 'packed') await shop.call('table.void', { weighingId, ...REASON });
    }
    await shop.call('animals.hold', { id: held, reason: 'sample', sample: 'L26-118' });
    return { held, other, into: into.map(({ weighingId }) => weighingId) };
  }

  it.each(['packed', 'packed and taken back', 'passed'] as const)(
    'keeps the others from going out by a voided weight, of whichever animal (%s)',
    async (how) => {
      const shop = await freshDesk();
      const { held, other, into } = await groundTogether(shop, how);
      await shop.call('animals.testResult', { id: held, result: 'positive' });
      for (const weighingId of into)
        expect(await shop.problem('table.void', { weighingId, ...REASON })).toMatchObject({
          kind: 'refused',
          code: 'batch.held-in',
          with: { ticket: '26-0001', batch: 'G26-001' },
        });
      expect(await shop.problem('animals.setStage', { id: other, stage: 'ready' })).toMatchObject({
        code: 'pooled.positive',
      });
      // A misread weight is put right all the same.
      await shop.call('table.correct', { weighingId: into[1] ?? 0, typed: '59', ...REASON });
      shop.desk.close();
    },
  );

  it('keeps its weight also where it was ground alone', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '60' });
    const { id: batchId } = await shop.call('grinder.start', { ...BATCH, animals: [{ id }] });
    const into = { batchId, animalId: id, part: 'trim', typed: '60' } as const;
    const { weighingId } = await shop.call('grinder.weighIn', into);
    await shop.call('grinder.pass', { batchId, plate: '4.5 mm' });
    await shop.call('animals.hold', { id, reason: 'sample', sample: 'L26-118' });
    const refused = { code: 'batch.held-in', with: { ticket: '26-0001', batch: 'G26-001' } };
    expect(await shop.problem('table.void', { weighingId, ...REASON })).toMatchObject(refused);
    shop.desk.close();
  });

  it('lets a weight out before it was ground, and once the hold has ended', async () => {
    const shop = await freshDesk();
    const early = await groundTogether(shop, 'not yet');
    await shop.call('table.void', { weighingId: early.into[0] ?? 0, ...REASON });
    const late = await groundTogether(shop, 'packed');
    await shop.call('animals.endHold', { id: late.held, reason: 'wrong animal' });
    await shop.call('table.void', { weighingId: late.into[0] ?? 0, ...REASON });
    shop.desk.close();
  });
});
