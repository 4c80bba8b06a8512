/** Throwing fat out, counting it, reading its history, and keeping off what is past its use-by. */
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const LB = 453.59237;
const DAY = 86_400;

async function lot(shop: FreshDesk, typed = '40', useBy?: string): Promise<number> {
  return (await shop.call('fat.receive', { source: 'pork-back-fat', typed, ...(useBy ? { useBy } : {}) })).id;
}
async function leftLb(shop: FreshDesk, id: number): Promise<number> {
  return ((await shop.call('fat.listLots', {})).find((one) => one.id === id)?.leftGrams ?? Number.NaN) / LB;
}

describe('throwing fat out', () => {
  it('takes some or all of a lot, never more than is left, and says what is left', async () => {
    const shop = await freshDesk();
    const lotId = await lot(shop);
    await shop.call('fat.discard', { lotId, typed: '2.5', reason: 'Dropped' });
    expect(await leftLb(shop, lotId)).toBeCloseTo(37.5, 9);
    expect(await shop.problem('fat.discard', { lotId, typed: '38', reason: 'Rancid' })).toMatchObject({
      kind: 'refused',
      code: 'fat.not-enough',
      field: 'typed',
    });
    expect(await leftLb(shop, lotId)).toBeCloseTo(37.5, 9);
    expect(await shop.call('fat.discard', { lotId, reason: 'Rancid' })).toEqual({ leftGrams: 0 });
    expect(await leftLb(shop, lotId)).toBe(0);
    expect(await shop.problem('fat.discard', { lotId, reason: 'Again' })).toMatchObject({
      code: 'fat.none-left',
    });
    expect(await shop.problem('fat.discard', { lotId, reason: ' ' })).toMatchObject({ code: 'text.needed' });
  });
});

describe('counting a lot', () => {
  it('writes the difference down, up or down, to nothing, but never above what came in', async () => {
    const shop = await freshDesk();
    const lotId = await lot(shop);
    const counted = await shop.call('fat.count', { lotId, typed: '36', reason: 'Weighed' });
    expect(counted.differenceGrams).toBeCloseTo(-4 * LB, 6);
    expect((await shop.call('fat.count', { lotId, typed: '38', reason: 'A tub was behind' })).leftGrams).toBeCloseTo(38 * LB, 6); // prettier-ignore
    expect(await shop.problem('fat.count', { lotId, typed: '41', reason: 'x' })).toMatchObject({
      code: 'fat.more-than-came',
    });
    expect(await shop.problem('fat.count', { lotId, typed: '38', reason: 'x' })).toMatchObject({
      code: 'fat.as-counted',
    });
    expect(await shop.problem('fat.count', { lotId, typed: '', reason: 'x' })).toMatchObject({
      code: 'reading.empty',
    });
    await shop.call('fat.count', { lotId, typed: '0 lb', reason: 'Gone' });
    expect(await leftLb(shop, lotId)).toBe(0);
  });

  it('can be read afterwards, with all else that became of the lot', async () => {
    const shop = await freshDesk();
    const lotId = await lot(shop);
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '100' });
    const batch = await shop.call('grinder.start', {
      animals: [{ id }],
      fat: 'pork-back-fat',
      targetFat: 0.1,
      product: 'Ground',
    });
    await shop.call('grinder.weighIn', {
      batchId: batch.id,
      fatLotId: lotId,
      part: 'fat added',
      typed: '10',
    });
    await shop.call('fat.count', { lotId, typed: '29', reason: 'Weighed', by: 'MP' });
    await shop.call('fat.discard', { lotId, typed: '1', reason: 'Dropped', by: 'MP' });
    const moves = await shop.call('fat.listMovements', { lotId });
    expect(moves.map(({ kind, batch: into }) => [kind, into])).toEqual([
      ['bought', null],
      ['into batch', 'G26-001'],
      ['counted', null],
      ['thrown out', null],
    ]);
    for (const [i, left] of [40, 30, 29, 28].entries())
      expect((moves[i]?.leftGrams ?? 0) / LB).toBeCloseTo(left, 6);
    expect(moves[2]).toMatchObject({ typed: '29', note: 'Weighed', by: 'MP' });
    expect(await shop.problem('fat.listMovements', { lotId: 99 })).toMatchObject({ code: 'fat.lot-unknown' });
  });
});

describe('fat past its use-by', () => {
  it('is flagged on its days, left out of plans and named, unless asked for by its lot', async () => {
    const shop = await freshDesk();
    const old = await lot(shop, '20', '2026-10-14');
    const keeps = async (id: number) =>
      (await shop.call('fat.listLots', {})).find((one) => one.id === id)?.keeps;
    expect(await keeps(old)).toBe('good');
    shop.wait(DAY);
    expect(await keeps(old)).toBe('soon');
    shop.wait(3 * DAY);
    expect(await keeps(old)).toBe('soon');
    shop.wait(DAY);
    expect(await keeps(old)).toBe('past');
    const fresh = await lot(shop, '30', '2026-11-20');
    expect(await keeps(await lot(shop, '1'))).toBe('good');
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '100' });
    const asked = { animals: [{ id }], fat: 'pork-back-fat', targetFat: 0.125 };
    const plan = await shop.call('grinder.plan', asked);
    if (plan.kind !== 'plan') throw new Error(plan.kind);
    expect(plan.parts.map(({ fatLotId }) => fatLotId)).toEqual([null, fresh]);
    expect(plan.leftOut).toMatchObject([
      { lotId: old, fatName: 'Pork back fat', lotCode: 'F001', ticket: null, useBy: '2026-10-14' },
    ]);
    const named = await shop.call('grinder.plan', { ...asked, lotIds: [old] });
    if (named.kind !== 'plan') throw new Error(named.kind);
    expect(named.parts.map(({ fatLotId }) => fatLotId)).toEqual([null, old]);
    expect(named.leftOut).toEqual([]);
    const other = await shop.call('grinder.plan', { ...asked, lotIds: [fresh] });
    expect(other.leftOut).toMatchObject([{ lotId: old }]);
  });
});

describe('what came into a lot', () => {
  it('counts a corrected weight of saved fat once', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    const { weighingId } = await shop.call('table.weigh', { animalId, stage: 'cut', part: 'fat saved', typed: '20', confirmed: true });
    await shop.call('table.correct', { weighingId, typed: '2', reason: 'misread' });
    const [own] = await shop.call('fat.listLots', {});
    expect((own?.startGrams ?? 0) / LB).toBeCloseTo(2, 9);
    expect(await shop.problem('fat.count', { lotId: own?.id ?? 0, typed: '15', reason: 'counted' })).toMatchObject({ code: 'fat.more-than-came' });
  }); // prettier-ignore

  it('is all that is on hand once a weight is voided that a count had put right', async () => {
    const shop = await freshDesk();
    const lotId = await lot(shop, '20');
    const animalId = await takeIn(shop);
    await cut(shop, animalId, { trim: '90' });
    const { id: batchId } = await shop.call('grinder.start', { animals: [{ id: animalId }], fat: 'none', targetFat: null, product: 'Ground' });
    const typo = await shop.call('grinder.weighIn', { batchId, fatLotId: lotId, part: 'fat added', typed: '10' });
    await shop.call('fat.count', { lotId, typed: '19', reason: 'weighed again' });
    await shop.call('table.correct', { weighingId: typo.weighingId, typed: '1', reason: 'a zero too many' });
    expect(await leftLb(shop, lotId)).toBeCloseTo(19, 9);
    const [packed] = (await shop.call('grinder.getBatch', { id: batchId })).weighedIn.filter(({ voided }) => voided === null);
    await shop.call('table.void', { weighingId: packed?.id ?? 0, reason: 'another batch' });
    expect(await leftLb(shop, lotId)).toBeCloseTo(20, 9);
  }); // prettier-ignore
});
