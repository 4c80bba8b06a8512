/** A batch and what comes out of it: two scales differ a little, water and seasoning add some, and mass comes of nothing never. */
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

/** An open batch into which so many pounds of trim went. */
async function ground(shop: FreshDesk, pounds = '60') {
  const animalId = await takeIn(shop);
  await cut(shop, animalId, { trim: '60' });
  const { id: batchId } = await shop.call('grinder.start', {
    animals: [{ id: animalId }], fat: 'none', targetFat: null, product: 'Links',
  }); // prettier-ignore
  const { weighingId } = await shop.call('grinder.weighIn', {
    batchId,
    animalId,
    part: 'trim',
    typed: pounds,
  });
  return { animalId, batchId, into: weighingId };
}
const out = (batchId: number, typed: string) => ({ batchId, product: 'Links', count: 10, typed });

describe('more out of a batch than went in', () => {
  it('is asked about beyond what two scales differ by, and kept with a reason', async () => {
    const shop = await freshDesk();
    const { batchId } = await ground(shop);
    await shop.call('grinder.pack', out(batchId, '61'));
    const more = { ...out(batchId, '5'), by: 'RO' };
    const asked = { kind: 'conflict', code: 'batch.more-out', field: 'reason' };
    expect(await shop.problem('grinder.pack', more)).toMatchObject(asked);
    expect(await shop.problem('grinder.pack', { ...more, confirmed: true })).toMatchObject(asked);
    expect(await shop.problem('grinder.pack', { ...more, reason: 'ice' })).toMatchObject(asked);
    await shop.call('grinder.pack', { ...more, confirmed: true, reason: '6 lb of ice water' });
    // Said once, it is said of the batch.
    await shop.call('grinder.pack', out(batchId, '3'));
    await shop.call('grinder.finish', { batchId });
    expect(await shop.call('grinder.getBatch', { id: batchId })).toMatchObject({
      whyMoreOut: { reason: '6 lb of ice water', by: 'RO' },
    });
    shop.desk.close();
  });

  it('is refused beyond twice what went in, whatever is said', async () => {
    const shop = await freshDesk();
    const { batchId } = await ground(shop, '6');
    const problem = await shop.problem('grinder.pack', {
      ...out(batchId, '13'),
      confirmed: true,
      reason: 'ice',
    });
    expect(problem).toMatchObject({ kind: 'refused', code: 'batch.too-much-out' });
    shop.desk.close();
  });

  it('is no way round it to correct a package', async () => {
    const shop = await freshDesk();
    const { batchId } = await ground(shop);
    const { weighingId } = await shop.call('grinder.pack', out(batchId, '58'));
    const corrected = { weighingId, typed: '68' };
    expect(await shop.problem('table.correct', corrected)).toMatchObject({ code: 'batch.more-out' });
    expect(
      await shop.problem('table.correct', { weighingId, typed: '580', confirmed: true, reason: 'misread' }),
    ).toMatchObject({ code: 'batch.too-much-out' });
    await shop.call('table.correct', { ...corrected, confirmed: true, reason: 'cheese was added' });
    shop.desk.close();
  });

  it('does not keep a mistyped weight of what went in from being put right, and is asked when the batch is finished', async () => {
    const shop = await freshDesk();
    const { animalId, batchId, into } = await ground(shop);
    await shop.call('grinder.pack', out(batchId, '58'));
    await shop.call('table.void', { weighingId: into, reason: 'misread' });
    expect(await shop.problem('grinder.finish', { batchId })).toMatchObject({ code: 'batch.nothing-in' });
    await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed: '50' });
    expect(await shop.problem('grinder.finish', { batchId })).toMatchObject({
      kind: 'conflict', code: 'batch.more-out',
    }); // prettier-ignore
    await shop.call('grinder.finish', { batchId, confirmed: true, reason: 'seasoning and water' });
    shop.desk.close();
  });
});
