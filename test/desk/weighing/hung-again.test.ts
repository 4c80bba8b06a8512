import { describe, expect, it } from 'vitest';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const DAY = 24 * 3600;
const LB = 453.59237;

const hang = (animalId: number, typed: string) =>
  ({ animalId, stage: 'hanging', part: 'carcass', typed }) as const;

async function hangsAt(shop: FreshDesk, id: number): Promise<number> {
  const { weights } = await shop.call('animals.get', { id });
  return (weights.hangingGrams ?? 0) / LB;
}

describe('a carcass that is weighed on the hook again', () => {
  it('does not count twice: the desk asks, and as a correction the newest weight is its weight', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { species: 'white-tail' }, null);
    const first = await shop.call('table.weigh', hang(id, '70'));
    shop.wait(6 * DAY);
    expect(await shop.problem('table.weigh', hang(id, '66'))).toMatchObject({
      kind: 'conflict',
      code: 'weight.hung-again',
      with: { count: 1, grams: expect.closeTo(70 * LB, 3), part: 'carcass' },
    });
    await shop.call('table.correct', {
      weighingId: first.weighingId,
      typed: '66',
      reason: 'weighed again',
    });
    expect(await hangsAt(shop, id)).toBeCloseTo(66, 6);
    const { weighings } = await shop.call('animals.get', { id });
    expect(weighings.map(({ typed, voided }) => [typed, voided?.reason ?? null])).toEqual([
      ['70', 'weighed again'],
      ['66', null],
    ]);
  });

  it('is asked about, not refused, where the two together outweigh what came in', async () => {
    const shop = await freshDesk();
    const id = await takeIn(
      shop,
      { species: 'white-tail', weights: [{ stage: 'received', typed: '72' }] },
      null,
    );
    await shop.call('table.weigh', hang(id, '70'));
    shop.wait(6 * DAY);
    expect((await shop.problem('table.weigh', hang(id, '67'))).code).toBe('weight.hung-again');
    expect((await shop.problem('table.weigh', { ...hang(id, '67'), confirmed: true })).code).toBe(
      'weight.more-than-animal',
    );
  });

  it('is told in the words in which both weights were typed', async () => {
    const shop = await freshDesk();
    const received = { stage: 'received', typed: '72 lb 2 oz' } as const;
    const id = await takeIn(shop, { species: 'white-tail', weights: [received] }, null);
    expect((await shop.problem('table.weigh', hang(id, '80 lb 4 oz'))).with).toMatchObject({
      said: '80 lb 4 oz',
      baseSaid: '72 lb 2 oz',
    });
    await shop.call('table.weigh', { ...hang(id, '66 lb 4 oz'), confirmed: true });
    shop.wait(6 * DAY);
    expect((await shop.problem('table.weigh', hang(id, '64'))).with).toMatchObject({ said: '66 lb 4 oz' });
    expect(
      (await shop.problem('table.weigh', { ...hang(id, '64'), confirmed: true })).with,
    ).not.toHaveProperty('said');
  });

  it('adds another side once somebody says so', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, {}, null);
    await shop.call('table.weigh', hang(id, '190'));
    shop.wait(60);
    await shop.call('table.weigh', { ...hang(id, '186.5'), confirmed: true });
    expect(await hangsAt(shop, id)).toBeCloseTo(376.5, 6);
  });
});

describe('quarters on the hook', () => {
  const quarters = {
    species: 'elk',
    brought: 'quarters',
    parts: [
      { primal: 'haunch', count: 2 },
      { primal: 'shoulder', count: 1 },
    ],
  } as const;

  it('are weighed one by one without a question, and asked about once all of them were', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { ...quarters, parts: [...quarters.parts] }, null);
    for (const typed of ['62', '60', '41']) {
      await shop.call('table.weigh', hang(id, typed));
      shop.wait(60);
    }
    expect(await hangsAt(shop, id)).toBeCloseTo(163, 6);
    expect(await shop.problem('table.weigh', hang(id, '59'))).toMatchObject({
      code: 'weight.hung-again',
      with: { count: 3, part: 'pieces' },
    });
  });

  it('are asked about on a later day', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { ...quarters, parts: [...quarters.parts] }, null);
    await shop.call('table.weigh', hang(id, '62'));
    shop.wait(3 * DAY);
    expect((await shop.problem('table.weigh', hang(id, '60.5'))).code).toBe('weight.hung-again');
  });
});

describe('a hanging weight far from what the hook takes', () => {
  /** White-tail, skinned, received at 70 lb, a week on the hook. */
  async function afterAWeek() {
    const shop = await freshDesk();
    const id = await takeIn(
      shop,
      { species: 'white-tail', weights: [{ stage: 'received', typed: '70' }] },
      null,
    );
    shop.wait(7 * DAY);
    return { shop, id };
  }

  it('is asked about at entry, with what was expected and the likely slip, and kept when told to', async () => {
    const { shop, id } = await afterAWeek();
    expect(await shop.problem('table.weigh', hang(id, '56.0'))).toMatchObject({
      kind: 'conflict',
      code: 'weight.unlikely',
      field: 'typed',
      with: { part: 'hook', likely: '65.0', baseGrams: expect.closeTo(70 * LB, 3) },
    });
    await shop.call('table.weigh', { ...hang(id, '56.0'), confirmed: true });
    const { balance } = await shop.call('animals.get', { id });
    expect(balance.doubtful).toBe(true);
  });

  it.each(['67.5', '66', '65.0'])('is kept without a question at %s lb of 70', async (typed) => {
    const { shop, id } = await afterAWeek();
    await shop.call('table.weigh', hang(id, typed));
    expect((await shop.call('animals.get', { id })).balance.doubtful).toBe(false);
  });

  it('is not asked about where only the hide came off', async () => {
    const shop = await freshDesk();
    const id = await takeIn(
      shop,
      { species: 'white-tail', brought: 'whole', weights: [{ stage: 'received', typed: '120' }] },
      null,
    );
    shop.wait(2 * DAY);
    await shop.call('table.weigh', hang(id, '92'));
    expect(await hangsAt(shop, id)).toBeCloseTo(92, 6);
  });
});
