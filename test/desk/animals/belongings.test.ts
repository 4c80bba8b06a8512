/** Antlers, cape, heart: entered with a tag and a place, then to the taxidermist, to the hunter, or discarded. */
import { describe, expect, it } from 'vitest';
import { freshDesk, inBook, takeIn, type FreshDesk } from '../fresh-desk.ts';

const CAPE = { kind: 'cape', tag: 'A-7', place: 'freezer 2' };

async function withCape(shop: FreshDesk) {
  const animalId = await takeIn(shop, { belongings: [CAPE, { kind: 'skull', evidence: true }] });
  const [cape, skull] = await shop.call('belongings.list', { animalId });
  return { animalId, cape: cape?.id ?? 0, skull: skull?.id ?? 0 };
}

describe('what came with an animal', () => {
  it('is entered at intake, or later, and stands on its page, in the record book and in the history', async () => {
    const shop = await freshDesk();
    const { animalId } = await withCape(shop);
    await shop.call('belongings.add', { animalId, kind: 'heart', by: 'MK' });
    const listed = await shop.call('belongings.list', { animalId });
    expect(listed).toMatchObject([
      { ...CAPE, evidence: false, end: null },
      { kind: 'skull', evidence: true, end: null },
      { kind: 'heart', by: 'MK', end: null },
    ]);
    expect((await shop.call('animals.get', { id: animalId })).belongings).toEqual(listed);
    const [row] = await shop.call('records.list', {});
    expect(row?.belongings[1]).toEqual({ kind: 'skull', tag: '', evidence: true, went: null, name: null, on: null });
    const came = (await shop.call('animals.getHistory', { id: animalId })).filter(({ what }) => what === 'belonging-came');
    expect(came.map(({ facts }) => facts.kind).sort()).toEqual(['cape', 'heart', 'skull']);
    shop.desk.close();
  }); // prettier-ignore

  it('goes to the taxidermist, who is named, with receipt and day; and comes back when that is voided', async () => {
    const shop = await freshDesk();
    const { animalId, cape } = await withCape(shop);
    expect(await shop.problem('belongings.end', { id: cape, went: 'taxidermist' })).toMatchObject({ code: 'belonging.taxidermist', field: 'name' });
    expect(await shop.problem('belongings.end', { id: cape, went: 'discarded', on: '2026-10-11' })).toMatchObject({ code: 'date.future' });
    expect(await shop.problem('belongings.end', { id: cape, went: 'discarded', on: '2026-10-09' })).toMatchObject({ code: 'belonging.before-received' });
    await shop.call('belongings.end', { id: cape, went: 'taxidermist', name: 'Pine Studio', receipt: 'R-12', by: 'RO' });
    expect((await shop.call('belongings.list', { animalId }))[0]?.end).toEqual({
      went: 'taxidermist', name: 'Pine Studio', receipt: 'R-12', on: '2026-10-10', note: '', by: 'RO',
    });
    const [row] = await shop.call('records.list', {});
    expect(row?.belongings[0]).toMatchObject({ went: 'taxidermist', name: 'Pine Studio', on: '2026-10-10' });
    expect(await shop.problem('belongings.end', { id: cape, went: 'hunter' })).toMatchObject({ kind: 'conflict', code: 'belonging.gone' });
    await shop.call('belongings.voidEnd', { id: cape, reason: 'not fetched' });
    expect((await shop.call('belongings.list', { animalId }))[0]?.end).toBeNull();
    expect(await shop.problem('belongings.voidEnd', { id: cape, reason: 'x' })).toMatchObject({ code: 'belonging.here' });
    expect((await shop.call('animals.getHistory', { id: animalId })).map(({ what }) => what)).toEqual(
      expect.arrayContaining(['belonging-went', 'belonging-back']),
    );
    shop.desk.close();
  }); // prettier-ignore

  it('is voided with a reason and stays to be read', async () => {
    const shop = await freshDesk();
    const { animalId, cape } = await withCape(shop);
    await shop.call('belongings.void', { id: cape, reason: 'of another elk' });
    expect(await shop.call('belongings.list', { animalId })).toHaveLength(1);
    expect(await shop.problem('belongings.void', { id: cape, reason: 'again' })).toMatchObject({ code: 'belonging.voided' });
    expect(await shop.problem('belongings.void', { id: 99, reason: 'again' })).toMatchObject({ code: 'belonging.unknown' });
    inBook(shop, ({ db }) => {
      expect(db.prepare('SELECT count(*) FROM belonging').pluck().get()).toBe(2);
      expect(() => db.prepare("UPDATE belonging SET tag = ''").run()).toThrow('written once');
    });
  }); // prettier-ignore

  it('keeps words of the shop beside the list', async () => {
    const shop = await freshDesk();
    await shop.call('shop.saveSettings', { changes: { belongingKinds: ['tail', 'front feet'] } });
    expect((await shop.call('shop.get', {})).settings.belongingKinds).toEqual(['tail', 'front feet']);
    shop.desk.close();
  });
});

describe('at pickup', () => {
  it('is asked about: it goes along, or somebody says that it stays', async () => {
    const shop = await freshDesk();
    const { animalId, cape, skull } = await withCape(shop);
    await shop.call('animals.setStage', { id: animalId, stage: 'ready', answer: 'weighed again', confirmed: true });
    expect((await shop.call('pickup.get', {}))[0]?.belongings.map(({ kind }) => kind)).toEqual(['cape', 'skull']);
    const release = { id: animalId, to: 'Dana Whitlock', unpaidBy: 'RO' };
    expect(await shop.problem('pickup.release', release)).toMatchObject({
      kind: 'conflict', code: 'release.belongings', with: { kinds: 'cape, skull' },
    });
    expect(await shop.problem('pickup.release', { ...release, belongings: [99] })).toMatchObject({ code: 'belonging.unknown' });
    await shop.call('pickup.release', { ...release, belongings: [cape], confirmed: ['release.belongings'] });
    const [gone, here] = await shop.call('belongings.list', { animalId });
    expect(gone?.end).toMatchObject({ went: 'hunter', name: 'Dana Whitlock', on: '2026-10-10' });
    expect(here).toMatchObject({ id: skull, end: null });
    await shop.call('belongings.end', { id: skull, went: 'hunter', name: 'Dana Whitlock' });
    shop.desk.close();
  }); // prettier-ignore

  it('is here again, where it was stored, once the handing over is undone; what was fetched alone stays gone', async () => {
    const shop = await freshDesk();
    const { animalId, cape, skull } = await withCape(shop);
    await shop.call('animals.setStage', { id: animalId, stage: 'ready', answer: 'weighed again', confirmed: true });
    await shop.call('belongings.end', { id: skull, went: 'hunter', name: 'Dana Whitlock' });
    const before = await shop.call('belongings.list', { animalId });
    const release = { id: animalId, to: 'Dana Whitlock', unpaidBy: 'RO' };
    shop.wait(60);
    await shop.call('pickup.release', { ...release, belongings: [cape] });
    await shop.call('animals.reopen', { id: animalId, reason: 'the wrong box' });
    expect(await shop.call('belongings.list', { animalId })).toEqual(before);

    const { hunter } = await shop.call('animals.get', { id: animalId });
    const shares = [{ hunter: { id: hunter.id }, typed: '50' }, { hunter: { name: 'Bob Ray' }, typed: '50' }];
    await shop.call('shares.save', { animalId, basis: 'percent', shares });
    const part = { id: animalId, hunterId: hunter.id, to: 'Dana Whitlock', unpaidBy: 'RO', belongings: [cape] };
    shop.wait(60);
    await shop.call('shares.release', part);
    expect((await shop.call('belongings.list', { animalId })).map(({ end }) => end?.went)).toEqual(['hunter', 'hunter']);
    await shop.call('shares.voidRelease', { id: animalId, hunterId: hunter.id, reason: 'left it here' });
    expect(await shop.call('belongings.list', { animalId })).toEqual(before);
    const bob = (await shop.call('animals.get', { id: animalId })).sharers[1]?.hunterId ?? 0;
    await shop.call('shares.release', part);
    shop.wait(60);
    await shop.call('shares.release', { id: animalId, hunterId: bob, to: 'Bob Ray', unpaidBy: 'RO' });
    await shop.call('animals.reopen', { id: animalId, reason: 'the wrong box' });
    expect(await shop.call('belongings.list', { animalId })).toEqual(before);
    shop.desk.close();
  }); // prettier-ignore
});
