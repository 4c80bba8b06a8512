/** A lot of fat that runs dry in the middle of a batch: another of the same stands in, and what lacks is said. */
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn } from '../fresh-desk.ts';

const LB = 453.59237;

describe('a fat lot that runs dry mid-batch', () => {
  it('is refused beyond what is left, stood in for by the next lot, and what is on hand nowhere is said', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '100.00' });
    const lotId = (await shop.call('fat.receive', { source: 'pork-back-fat', typed: '20' })).id;
    const { id: batchId } = await shop.call('grinder.start', {
      animals: [{ id }], fat: 'pork-back-fat', targetFat: 0.19, product: 'Ground',
    }); // prettier-ignore
    const page = () => shop.call('grinder.getBatch', { id: batchId });
    const fat = async () => (await page()).toWeigh.filter(({ kind }) => kind === 'fat');
    // Pearson square, ground elk 8.82 %: 100 × (19 − 8.82) / (88.69 − 19) = 14.61 lb, 14.60 in whole scale steps.
    expect((await fat()).map(({ grams }) => Math.round((grams / LB) * 100) / 100)).toEqual([14.6]);
    await shop.call('fat.count', { lotId, typed: '5', reason: 'The tub was half empty' });
    const tooMuch = { batchId, fatLotId: lotId, part: 'fat added', typed: '14.6' };
    const refused = await shop.problem('grinder.weighIn', tooMuch);
    expect(refused).toMatchObject({ kind: 'refused', code: 'fat.not-enough' });
    expect(Number(refused.with?.leftGrams) / LB).toBeCloseTo(5, 6);
    expect((await page()).shortFat).toMatchObject({ source: 'pork-back-fat', name: 'Pork back fat' });
    expect(((await page()).shortFat?.grams ?? 0) / LB).toBeCloseTo(9.6, 6);
    const next = (await shop.call('fat.receive', { source: 'pork-back-fat', typed: '30' })).id;
    expect(await page()).toMatchObject({ shortFat: null });
    const both = await fat();
    expect(both.map(({ fatLotId }) => fatLotId)).toEqual([lotId, next]);
    expect(both.map(({ grams }) => Math.round((grams / LB) * 100) / 100)).toEqual([5, 9.6]);
    await shop.call('grinder.weighIn', { batchId, fatLotId: lotId, part: 'fat added', typed: '5' });
    await shop.call('grinder.weighIn', { batchId, animalId: id, part: 'trim', typed: '100.00' });
    await shop.call('grinder.weighIn', { batchId, fatLotId: next, part: 'fat added', typed: '9.6' });
    expect(await page()).toMatchObject({ toWeigh: [], shortFat: null, topUp: null });
    expect((await page()).fat).toBeCloseTo(0.19, 3);
  });

  it('is topped up from another lot of the same fat, never from one past its use-by', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '100.00' });
    const lotId = (await shop.call('fat.receive', { source: 'beef-suet', typed: '14.2' })).id;
    const { id: batchId } = await shop.call('grinder.start', {
      animals: [{ id, grams: 90 * LB }], fat: 'beef-suet', targetFat: 0.125, product: 'Ground',
    }); // prettier-ignore
    const planned = (await shop.call('grinder.getBatch', { id: batchId })).toWeigh;
    const suet = (planned.find(({ kind }) => kind === 'fat')?.grams ?? 0) / LB;
    await shop.call('grinder.weighIn', { batchId, animalId: id, part: 'trim', typed: '100.00' });
    await shop.call('grinder.weighIn', {
      batchId,
      fatLotId: lotId,
      part: 'fat added',
      typed: suet.toFixed(2),
    });
    await shop.call('fat.discard', { lotId, reason: 'Dropped' });
    const topUp = async () => (await shop.call('grinder.getBatch', { id: batchId })).topUp;
    expect(await topUp()).toMatchObject({ fatLotId: lotId, leftGrams: 0 });
    await shop.call('fat.receive', { source: 'beef-suet', typed: '9', useBy: '2026-10-09' });
    expect(await topUp()).toMatchObject({ fatLotId: lotId });
    const fresh = (await shop.call('fat.receive', { source: 'beef-suet', typed: '9' })).id;
    expect(await topUp()).toMatchObject({ fatLotId: fresh });
  });
});
