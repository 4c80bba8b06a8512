/** A positive result reaches every animal whose meat was ground with it, or after it in a grinder that was not cleaned. */
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const BATCH = { fat: 'none', targetFat: null, product: 'Summer sausage' } as const;

async function grind(shop: FreshDesk, ids: readonly number[]): Promise<number> {
  shop.wait(60);
  for (const id of ids) await cut(shop, id, { trim: '20' });
  const { id: batchId } = await shop.call('grinder.start', { animals: ids.map((id) => ({ id })), ...BATCH });
  for (const animalId of ids) {
    shop.wait(60);
    await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed: '20' });
  }
  shop.wait(60);
  const typed = String(20 * ids.length);
  await shop.call('grinder.pack', { batchId, product: 'Summer sausage', count: 10 * ids.length, typed });
  return batchId;
}

/** Three animals in one batch, the first positive; a fourth ground after them, a fifth after a cleaning. */
async function sausageDay() {
  const shop = await freshDesk();
  const hunter = (name: string) => ({ hunter: { name, phone: `555-${name}` } });
  const [first, second, third, fourth, fifth] = [
    await takeIn(shop),
    await takeIn(shop, hunter('Ana')),
    await takeIn(shop, hunter('Ben')),
    await takeIn(shop, hunter('Cy')),
    await takeIn(shop, hunter('Dot')),
  ] as const;
  const pool = await grind(shop, [first, second, third]);
  const after = await grind(shop, [fourth]);
  shop.wait(60);
  const { id: cleaning } = await shop.call('grinder.saveCleaning', { how: 'taken apart and washed' });
  await grind(shop, [fifth]);
  for (const id of [second, third, fourth, fifth])
    await shop.call('animals.setStage', { id, stage: 'ready' });
  await shop.call('pickup.release', { id: third, to: 'Ben', unpaidBy: 'RO' });
  await shop.call('animals.hold', { id: first, reason: 'sample', sample: 'L26-118' });
  await shop.call('animals.testResult', { id: first, result: 'positive', lab: 'State lab' });
  return { shop, first, second, third, fourth, fifth, pool, after, cleaning };
}

describe('a positive result', () => {
  it('holds all that shared the batch or the uncleaned grinder, and nobody else', async () => {
    const { shop, second, fourth, fifth } = await sausageDay();
    const waits = new Map((await shop.call('pickup.get', {})).map((row) => [row.id, row.waitsFor]));
    expect(waits.get(second)).toMatchObject([
      { ticket: '26-0001', batch: 'G26-001', positive: true, from: null },
    ]);
    expect(waits.get(fourth)).toMatchObject([{ ticket: '26-0001', batch: 'G26-002', from: 'G26-001' }]);
    expect(waits.get(fifth)).toEqual([]);
    expect(await shop.problem('pickup.release', { id: fourth, to: 'Cy', unpaidBy: 'RO' })).toMatchObject({
      code: 'pooled.through-grinder',
      with: { other: '26-0001', batch: 'G26-002', from: 'G26-001' },
    });
    await shop.call('pickup.release', { id: fifth, to: 'Dot', unpaidBy: 'RO' });
    expect((await shop.call('rail.get', {})).ready.filter((row) => row.waits)).toHaveLength(2);
  });

  it('names batches, packages, hunters and phones on its page, one that was handed over to be called first', async () => {
    const { shop, first, pool, after } = await sausageDay();
    const { affects } = await shop.call('animals.get', { id: first });
    expect(affects?.batches).toMatchObject([
      { id: pool, name: 'G26-001', from: null, packages: 30 },
      { id: after, name: 'G26-002', from: 'G26-001', packages: 10 },
    ]);
    expect(
      affects?.animals.map(({ ticket, phone, stage, toCall, packages }) => [
        ticket,
        phone,
        stage,
        toCall,
        packages,
      ]),
    ).toEqual([
      ['26-0003', '555-Ben', 'released', true, 10],
      ['26-0002', '555-Ana', 'ready', true, 10],
      ['26-0004', '555-Cy', 'ready', true, 10],
    ]);
    expect((await shop.call('grinder.getBatch', { id: after })).affectedBy).toEqual([
      { ticket: '26-0001', from: 'G26-001' },
    ]);
    expect((await shop.call('grinder.get', {})).open.filter((one) => one.affectedBy.length > 0)).toHaveLength(
      2,
    );
  });

  it('names each hunter of a shared animal, and who has taken a part of it already', async () => {
    const { shop, first, second } = await sausageDay();
    await shop.call('animals.testResult', { id: first, result: 'not detected', reason: 'read again' });
    const { hunter } = await shop.call('animals.get', { id: second });
    await shop.call('shares.save', {
      animalId: second,
      basis: 'percent',
      shares: [
        { hunter: { id: hunter.id }, typed: '60' },
        { hunter: { name: 'Eve', phone: '555-Eve' }, typed: '40' },
      ],
    });
    await shop.call('shares.release', { id: second, hunterId: hunter.id, to: 'Ana', unpaidBy: 'RO' });
    await shop.call('animals.hold', { id: first, reason: 'sample', sample: 'L26-119' });
    await shop.call('animals.testResult', { id: first, result: 'positive' });
    const { affects } = await shop.call('animals.get', { id: first });
    // What left in part is as urgent as what left whole.
    expect(affects?.animals.map(({ ticket }) => ticket)).toEqual(['26-0002', '26-0003', '26-0004']);
    expect(affects?.animals[0]?.sharers).toEqual([
      { name: 'Ana', phone: '555-Ana', gone: true },
      { name: 'Eve', phone: '555-Eve', gone: false },
    ]);
  });

  it('lets nothing more into a batch that it reached', async () => {
    const { shop, fourth, after } = await sausageDay();
    await shop.call('animals.setStage', { id: fourth, stage: 'packing' });
    await cut(shop, fourth, { trim: '5' });
    const more = { batchId: after, animalId: fourth, part: 'trim', typed: '5' };
    expect(await shop.problem('grinder.weighIn', more)).toMatchObject({ code: 'batch.affected' });
  });

  it('is undone by a corrected result alone, and the trail stays', async () => {
    const { shop, first, second, fourth } = await sausageDay();
    const { id: noteId } = await shop.call('animals.noteAffected', {
      id: fourth, sourceId: first, what: 'called', note: 'keeps it frozen', by: 'RO',
    }); // prettier-ignore
    const of = async () =>
      (await shop.call('animals.get', { id: first })).affects?.animals.find(({ id }) => id === fourth);
    expect(await of()).toMatchObject({
      toCall: false,
      notes: [{ what: 'called', note: 'keeps it frozen', by: 'RO' }],
    });
    expect(await shop.problem('pickup.release', { id: fourth, to: 'Cy', unpaidBy: 'RO' })).toMatchObject({
      code: 'pooled.through-grinder',
    });
    await shop.call('animals.voidAffected', { noteId, reason: 'another hunter' });
    expect(await of()).toMatchObject({ toCall: true, notes: [] });
    await shop.call('animals.testResult', {
      id: first,
      result: 'not detected',
      reason: 'read for another sample',
    });
    expect((await shop.call('animals.get', { id: first })).affects).toBeNull();
    for (const id of [second, fourth]) await shop.call('pickup.release', { id, to: 'them', unpaidBy: 'RO' });
    const trail = await shop.call('animals.getHistory', { id: fourth });
    expect(trail.map(({ what }) => what)).toEqual(
      expect.arrayContaining(['affected-note', 'affected-note-voided']),
    );
  });

  it('reaches further once a cleaning is voided, and less far once an earlier one is written down', async () => {
    const { shop, fourth, fifth, cleaning, after } = await sausageDay();
    await shop.call('grinder.voidCleaning', { cleaningId: cleaning, reason: 'not done' });
    const waiting = async (id: number) => (await shop.call('animals.get', { id })).waitsFor.length;
    expect(await waiting(fifth)).toBe(1);
    // 15:00 UTC is 9:00 at the shop: the pool was packed at 9:05, the next batch weighed in at 9:07.
    const page = await shop.call('grinder.getBatch', { id: after });
    expect(page.weighedIn[0]?.at).toBe('2026-10-10T15:07:00.000Z');
    const how = 'taken apart and washed';
    await shop.call('grinder.saveCleaning', { how, earlier: { on: '2026-10-10', time: '9:06' } });
    expect(await waiting(fourth)).toBe(0);
    expect(await waiting(fifth)).toBe(0);
  });

  it('is not stopped by a cleaning between the last weight in and the grinding', async () => {
    const shop = await freshDesk();
    const [sick, next] = [await takeIn(shop), await takeIn(shop)];
    await cut(shop, sick, { trim: '20' });
    const { id: batchId } = await shop.call('grinder.start', { ...BATCH, animals: [{ id: sick }] });
    await shop.call('grinder.weighIn', { batchId, animalId: sick, part: 'trim', typed: '20' });
    shop.wait(60);
    await shop.call('grinder.saveCleaning', { how: 'washed before it was ground' });
    shop.wait(60);
    await shop.call('grinder.pack', { batchId, product: 'Summer sausage', count: 10, typed: '19' });
    const after = await grind(shop, [next]);
    await shop.call('animals.hold', { id: sick, reason: 'sample', sample: 'L26-118' });
    await shop.call('animals.testResult', { id: sick, result: 'positive' });
    const page = await shop.call('animals.get', { id: sick });
    expect(page.affects?.animals.map(({ id }) => id)).toEqual([next]);
    expect(page.heldGrinds).toMatchObject([{ batchId, cleaned: null, between: [{ id: after }] }]);
    expect((await shop.call('grinder.getBatch', { id: after })).throughBefore).toMatchObject([{ batchId }]);
    expect((await shop.call('grinder.get', {})).uncleaned).toMatchObject([{ batchId, since: 1 }]);
    // Somebody knows that it was after this batch: 15:00 UTC is 9:00 at the shop.
    const earlier = { on: '2026-10-10', time: '9:01' };
    await shop.call('grinder.saveCleaning', { batchId, how: 'washed', earlier });
    expect((await shop.call('animals.get', { id: sick })).affects?.animals).toEqual([]);
    expect((await shop.call('grinder.get', {})).uncleaned).toEqual([]);
  });

  it('lets nobody go by a voided weight: the positive one alone, the next in the grinder, packages, or fat', async () => {
    const shop = await freshDesk();
    const [slow, sick, next] = [await takeIn(shop), await takeIn(shop), await takeIn(shop)];
    // Weighed in before the positive one, packed after it: only its packages say that it was at work then.
    await cut(shop, slow, { trim: '20' });
    const { id: across } = await shop.call('grinder.start', { ...BATCH, animals: [{ id: slow }] });
    await shop.call('grinder.weighIn', { batchId: across, animalId: slow, part: 'trim', typed: '20' });
    const own = await grind(shop, [sick]);
    shop.wait(60);
    const packages = await shop.call('grinder.pack', { batchId: across, product: 'Summer sausage', count: 10, typed: '19' }); // prettier-ignore
    const after = await grind(shop, [next]);
    await cut(shop, next, { trim: '5' });
    const again = await shop.call('grinder.weighIn', { batchId: after, animalId: next, part: 'trim', typed: '5' }); // prettier-ignore
    await shop.call('animals.hold', { id: sick, reason: 'sample', sample: 'L26-118' });
    await shop.call('animals.testResult', { id: sick, result: 'positive' });
    // A tote that was weighed twice frees nobody.
    await shop.call('table.void', { weighingId: again.weighingId, reason: 'weighed twice' });
    const into = async (id: number) =>
      (await shop.call('grinder.getBatch', { id })).weighedIn.map(({ id: weighingId }) => weighingId);
    const refused = (weighingId: number) =>
      shop.problem('table.void', { weighingId, reason: 'weighed into the wrong batch' });
    expect(await refused((await into(own))[0] ?? 0)).toMatchObject({ code: 'batch.held-in' });
    expect(await refused((await into(after))[0] ?? 0)).toMatchObject({
      kind: 'refused',
      code: 'batch.reached-out',
      with: { ticket: '26-0002', other: '26-0003', batch: 'G26-003' },
    });
    expect(await refused(packages.weighingId)).toMatchObject({ code: 'batch.reached-out' });
    for (const id of [slow, next])
      expect(await shop.problem('animals.setStage', { id, stage: 'ready', confirmed: true })).toMatchObject({
        code: 'pooled.through-grinder',
      });
  });

  it('is refused a note on an animal that it does not reach', async () => {
    const { shop, first, fifth } = await sausageDay();
    expect(
      await shop.problem('animals.noteAffected', { id: fifth, sourceId: first, what: 'called' }),
    ).toMatchObject({ code: 'affected.not' });
  });
});
