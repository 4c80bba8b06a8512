/** A weight at the wrong animal or the wrong part is moved: one transaction, the typed digits, both trails. */
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, inBook, takeIn, type FreshDesk } from '../fresh-desk.ts';

const GRIND = { fat: 'none', targetFat: null, product: 'Ground' } as const;

async function weighed(shop: FreshDesk, animalId: number, part: string) {
  const { weighings } = await shop.call('animals.get', { id: animalId });
  const row = weighings.findLast((one) => one.part === part && one.voided === null);
  if (!row) throw new Error(`no ${part}`);
  return row;
}

describe('moving a weight to another animal', () => {
  it('keeps digits, container and moment, and each history names the other ticket', async () => {
    const shop = await freshDesk();
    const wrong = await takeIn(shop);
    const right = await takeIn(shop);
    const typed = { stage: 'cut', part: 'trim', typed: '61.20', tareTyped: '1.2' } as const;
    await shop.call('table.weigh', { animalId: wrong, ...typed, by: 'RO' });
    const old = await weighed(shop, wrong, 'trim');
    shop.wait(3600);
    const moved = await shop.call('table.move', { weighingId: old.id, animalId: right, reason: 'wrong ticket', by: 'MB' });
    expect(moved).toMatchObject({ ticket: '26-0002', grams: old.grams });
    expect(await weighed(shop, right, 'trim')).toMatchObject({
      id: moved.weighingId, typed: '61.20', tareTyped: '1.2', grams: old.grams, at: old.at, corrects: old.id, by: 'MB',
    });
    const there = await shop.call('animals.get', { id: wrong });
    expect(there.weighings.find(({ id }) => id === old.id)?.voided).toMatchObject({ reason: 'wrong ticket', by: 'MB' });
    expect(there.trimGrams).toBe(0);
    expect((await shop.call('animals.get', { id: right })).stage).toBe('cutting');
    const [left] = await shop.call('animals.getHistory', { id: wrong });
    expect(left).toMatchObject({ what: 'weight-moved-away', by: 'MB', reason: 'wrong ticket', facts: { ticket: '26-0002', typed: '61.20' } });
    const came = (await shop.call('animals.getHistory', { id: right })).find(({ what }) => what === 'weight-moved-here');
    expect(came).toMatchObject({ by: 'MB', reason: 'wrong ticket', facts: { ticket: '26-0001', typed: '61.20' } });
    expect(Date.parse(came?.at ?? '') - Date.parse(old.at)).toBe(3_600_000);
    inBook(shop, ({ db }) => {
      expect(db.prepare('SELECT * FROM animal_sum').all()).toEqual(db.prepare('SELECT * FROM animal_sum_now').all());
      const audit = db.prepare("SELECT before, after FROM audit WHERE record = 'weighing' AND act = 'add'").get();
      expect(audit).toEqual({
        before: JSON.stringify({ weighingId: old.id, ticket: '26-0001', part: 'trim' }),
        after: JSON.stringify({ weighingId: moved.weighingId, ticket: '26-0002', part: 'trim' }),
      });
    });
  }); // prettier-ignore

  it('is undone by moving it back', async () => {
    const shop = await freshDesk();
    const wrong = await takeIn(shop);
    const right = await takeIn(shop);
    await cut(shop, wrong, { 'fat saved': '10' });
    const old = await weighed(shop, wrong, 'fat saved');
    const moved = await shop.call('table.move', {
      weighingId: old.id,
      animalId: right,
      reason: 'wrong ticket',
    });
    expect((await shop.call('animals.get', { id: wrong })).ownFat).toMatchObject({ leftGrams: 0 });
    expect((await shop.call('animals.get', { id: right })).ownFat).toMatchObject({ leftGrams: old.grams });
    await shop.call('table.move', { weighingId: moved.weighingId, animalId: wrong, reason: 'move undone' });
    expect((await shop.call('animals.get', { id: wrong })).ownFat).toMatchObject({ leftGrams: old.grams });
    expect(await weighed(shop, wrong, 'fat saved')).toMatchObject({ typed: '10', at: old.at });
    shop.desk.close();
  });

  it('keeps the unit of the day on which it was typed', async () => {
    const shop = await freshDesk();
    const wrong = await takeIn(shop);
    const right = await takeIn(shop);
    await cut(shop, wrong, { bone: '50' });
    const old = await weighed(shop, wrong, 'bone');
    await shop.call('shop.saveSettings', { changes: { unit: 'kg', step: 0.02 } });
    await shop.call('table.move', { weighingId: old.id, animalId: right, reason: 'wrong ticket' });
    expect(await weighed(shop, right, 'bone')).toMatchObject({ typed: '50', unit: 'lb', grams: old.grams });
    shop.desk.close();
  });

  it('changes nothing where it is refused: all or nothing', async () => {
    const shop = await freshDesk();
    const wrong = await takeIn(shop);
    const small = await takeIn(shop, {}, '90');
    await cut(shop, wrong, { trim: '95' });
    const old = await weighed(shop, wrong, 'trim');
    const refusal = await shop.problem('table.move', { weighingId: old.id, animalId: small, reason: 'x', confirmed: true });
    expect(refusal).toMatchObject({ kind: 'refused', code: 'weight.more-than-animal' });
    expect((await weighed(shop, wrong, 'trim')).id).toBe(old.id);
    const gone = await takeIn(shop);
    await shop.call('animals.cancel', { id: gone, reason: 'mistake' });
    expect(await shop.problem('table.move', { weighingId: old.id, animalId: gone, reason: 'x' })).toMatchObject({ code: 'animal.closed' });
    expect(await shop.problem('table.move', { weighingId: old.id, animalId: 999, reason: 'x' })).toMatchObject({ code: 'animal.unknown' });
    expect(await shop.problem('table.move', { weighingId: old.id, reason: 'x' })).toMatchObject({ code: 'move.nowhere' });
    expect((await weighed(shop, wrong, 'trim')).id).toBe(old.id);
    shop.desk.close();
  }); // prettier-ignore

  it('leaves alone what the grinder already took, and weights in a batch', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    const other = await takeIn(shop);
    await cut(shop, animalId, { trim: '60' });
    const trim = await weighed(shop, animalId, 'trim');
    const { id: batchId } = await shop.call('grinder.start', { ...GRIND, animals: [{ id: animalId }] });
    const into = await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed: '50' });
    expect(await shop.problem('table.move', { weighingId: trim.id, animalId: other, reason: 'x' })).toMatchObject({ code: 'weighing.used' });
    expect(await shop.problem('table.move', { weighingId: into.weighingId, animalId: other, reason: 'x' })).toMatchObject({
      code: 'move.in-batch', with: { batch: 'G26-001' },
    });
    shop.desk.close();
  }); // prettier-ignore
});

describe('moving a weight to another part', () => {
  it('writes the same digits as that part, and the history says as what it was entered', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { bone: '30' });
    const old = await weighed(shop, id, 'bone');
    await shop.call('table.move', {
      weighingId: old.id,
      to: { stage: 'cut', part: 'trim' },
      reason: 'wrong part',
    });
    const page = await shop.call('animals.get', { id });
    expect(page.trimGrams).toBe(old.grams);
    expect(page.ladder?.pieces.map(({ part }) => part)).toEqual(['trim']);
    const entry = (await shop.call('animals.getHistory', { id })).find(({ what }) => what.includes('moved'));
    expect(entry).toMatchObject({
      what: 'weight-moved',
      facts: { part: 'trim', fromPart: 'bone', typed: '30' },
    });
    shop.desk.close();
  });

  it('takes a weight on the hook for one as it came in, and packages never for meat', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const hanging = await weighed(shop, id, 'carcass');
    await shop.call('table.move', {
      weighingId: hanging.id, to: { stage: 'received', part: 'carcass' }, reason: 'it was the scale at the door',
    });
    expect((await shop.call('animals.get', { id })).weights).toEqual({ receivedGrams: hanging.grams, hangingGrams: null });
    await shop.call('table.weigh', { animalId: id, stage: 'packed', part: 'package', product: 'Steaks', count: 12, typed: '40' });
    const pack = await weighed(shop, id, 'package');
    expect(
      await shop.problem('table.move', { weighingId: pack.id, to: { stage: 'cut', part: 'trim' }, reason: 'x' }),
    ).toMatchObject({ code: 'choice.part' });
    const right = await takeIn(shop);
    await shop.call('table.move', { weighingId: pack.id, animalId: right, reason: 'wrong ticket' });
    expect((await shop.call('animals.get', { id: right })).packages).toMatchObject([{ product: 'Steaks', count: 12, grams: pack.grams }]);
    shop.desk.close();
  }); // prettier-ignore
});
