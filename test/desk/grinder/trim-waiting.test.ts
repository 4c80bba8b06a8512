import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

/** An animal whose trim was weighed in but for so much. The shop's scale shows steps of 0.05 lb. */
async function ground(shop: FreshDesk, trim: string, weighedIn: string): Promise<number> {
  const id = await takeIn(shop);
  await cut(shop, id, { trim, 'fat saved': '3.00' });
  const batch = await shop.call('grinder.start', {
    animals: [{ id }],
    fat: 'own',
    targetFat: null,
    product: 'Ground',
  });
  await shop.call('grinder.weighIn', { batchId: batch.id, animalId: id, part: 'trim', typed: weighedIn });
  return id;
}

describe('trim that waits', () => {
  it.each(['100.02', '100.03'])('does not, of %s lb weighed in as 100.00', async (trim) => {
    const shop = await freshDesk();
    const id = await ground(shop, trim, '100.00');
    expect((await shop.call('grinder.get', {})).waiting).toEqual([]);
    expect((await shop.call('rail.get', {})).trimWaiting).toBe(0);
    expect(
      await shop.problem('grinder.plan', { animals: [{ id }], fat: 'none', targetFat: null }),
    ).toMatchObject({ code: 'trim.none' });
  });

  it('does when a whole scale step is left, and can be planned', async () => {
    const shop = await freshDesk();
    const id = await ground(shop, '100.05', '100.00');
    const [row] = (await shop.call('grinder.get', {})).waiting;
    expect(row).toMatchObject({ id, trimLeftGrams: expect.closeTo(0.05 * 453.59237, 6) });
    expect((await shop.call('rail.get', {})).trimWaiting).toBe(1);
    expect(
      await shop.call('grinder.plan', { animals: [{ id }], fat: 'none', targetFat: null }),
    ).toMatchObject({ kind: 'plan' });
  });
});

describe('the parts of a plan', () => {
  it('name the animal whose trim or own fat they are, and none for bought fat', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '40.00', 'fat saved': '3.00' });
    await shop.call('fat.receive', { source: 'pork-back-fat', typed: '20' });
    const parts = async (fat: string) => {
      const plan = await shop.call('grinder.plan', { animals: [{ id }], fat, targetFat: 0.12 });
      if (plan.kind !== 'plan') throw new Error(plan.kind);
      return plan.parts.map(({ kind, animalId }) => [kind, animalId]);
    };
    expect(await parts('own')).toEqual([['trim', id], ['fat', id]]); // prettier-ignore
    expect(await parts('pork-back-fat')).toEqual([['trim', id], ['fat', null]]); // prettier-ignore
  });
});
