/** A part that nobody weighed is unknown; only somebody's statement makes it zero, and a weight outweighs the statement. */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { forEachShare } from '../../../src/core/yield/observation.ts';
import { observationOf } from '../../../src/desk/learning/yield-observation.ts';
import { cut, freshDesk, inBook, takeIn, type FreshDesk } from '../fresh-desk.ts';

const DEER = { species: 'white-tail', detail: 'detailed' } as const;
/** Of a deer of 80 lb on the hook: what is left over is 7 lb, which may be shrink or damage. */
const PARTS = { 'whole cuts': '18', trim: '29', sinew: '8.5', bone: '17.5' };

const sumsOf = (shop: FreshDesk, animalId: number): Record<string, number | null> => {
  const db = new Database(shop.bookPath, { readonly: true });
  try {
    return db.prepare('SELECT * FROM animal_sum WHERE animal_id = ?').get(animalId) as Record<string, number>;
  } finally {
    db.close();
  }
};

async function deer(shop: FreshDesk, { none }: { none: boolean }): Promise<number> {
  const id = await takeIn(shop, DEER, '80');
  await cut(shop, id, PARTS);
  if (none) await shop.call('table.stateNone', { animalId: id, part: 'damage' });
  await shop.call('animals.setStage', { id, stage: 'packing' });
  return id;
}

/** What the page says such deer usually lose to damage, as a share of their hanging weight. */
async function usualDamage(shop: FreshDesk): Promise<{ low: number; high: number }> {
  const id = await takeIn(shop, DEER, '80');
  const { expected } = await shop.call('animals.get', { id });
  const { low = NaN, high = NaN } = expected.find(({ part }) => part === 'damage') ?? {};
  return { low, high };
}

/** The shares of damage that the finished animals teach the yield model. */
function damageTaught(shop: FreshDesk): number[] {
  const taught: number[] = [];
  inBook(shop, (book) => {
    for (const row of book.sums.finished()) {
      const observation = observationOf(row);
      if (observation) forEachShare(observation, (split, share) => split === 'damage' && taught.push(share));
    }
  });
  return taught;
}

describe('damage of thirty deer', () => {
  it('that nobody weighed teaches nothing about damage', { timeout: 60_000 }, async () => {
    const shop = await freshDesk();
    const before = await usualDamage(shop);
    for (let i = 0; i < 30; i++) await deer(shop, { none: false });
    const after = await usualDamage(shop);
    // How much is left over was learned, the same of all thirty; which part of that is damage was not.
    expect([before.low, after.low]).toEqual([0, 0]);
    expect(after.high).toBeGreaterThan(0.5 * before.high);
    const marked = await takeIn(shop, DEER, '80');
    await cut(shop, marked, { ...PARTS, damage: '2.1' });
    const { balance } = await shop.call('animals.get', { id: marked });
    expect(damageTaught(shop)).toEqual([]);
    expect(balance).toMatchObject({
      suspects: [],
      doubtful: false,
    });
  });

  it('that was stated to be none is learned as none', { timeout: 60_000 }, async () => {
    const shop = await freshDesk();
    const before = await usualDamage(shop);
    for (let i = 0; i < 30; i++) await deer(shop, { none: true });
    const after = await usualDamage(shop);
    expect(after.high).toBeLessThan(0.1 * before.high);
    expect(damageTaught(shop)).toEqual(Array(30).fill(0));
  });
});

describe('a part stated to be none', () => {
  it('counts as zero where before it was unknown, and is unknown again once that is voided', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    expect(sumsOf(shop, id)).toMatchObject({ damage: null, bone: null, fat_saved: null, sinew: null });
    const stated: number[] = [];
    for (const part of ['fat saved', 'sinew', 'bone', 'damage'] as const)
      stated.push((await shop.call('table.stateNone', { animalId: id, part, by: 'AB' })).noneId);
    expect(sumsOf(shop, id)).toMatchObject({ damage: 0, bone: 0, fat_saved: 0, sinew: 0, trim: null });
    const { none } = await shop.call('animals.get', { id });
    expect(none.map(({ part, by }) => [part, by])).toEqual(
      ['fat saved', 'sinew', 'bone', 'damage'].map((part) => [part, 'AB']),
    );
    for (const noneId of stated)
      await shop.call('table.voidNone', { noneId, reason: 'other animal', by: 'AB' });
    expect(sumsOf(shop, id)).toMatchObject({ damage: null, bone: null, fat_saved: null, sinew: null });
    expect((await shop.call('animals.get', { id })).none).toEqual([]);
    expect(
      await shop.problem('table.voidNone', { noneId: stated[0], reason: 'again', by: 'AB' }),
    ).toMatchObject({
      kind: 'conflict',
      code: 'none.voided',
    });
    expect((await shop.call('animals.getHistory', { id })).map(({ what }) => what)).toEqual(
      expect.arrayContaining(['none-stated', 'none-voided']),
    );
  });

  it('is outweighed by a weight, whichever came first', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await shop.call('table.stateNone', { animalId: id, part: 'damage' });
    const { weighingId } = await shop.call('table.weigh', {
      animalId: id,
      stage: 'cut',
      part: 'damage',
      typed: '2 kg',
    });
    expect(sumsOf(shop, id).damage).toBe(2000);
    expect((await shop.call('animals.get', { id })).none).toEqual([]);
    await shop.call('table.void', { weighingId, reason: 'other animal' });
    expect(sumsOf(shop, id).damage).toBe(0);
    expect((await shop.call('animals.get', { id })).none).toHaveLength(1);
  });

  it('is refused where the part is weighed, stated already, is no part for it, or may not be cut', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { damage: '2', trim: '60' });
    expect(await shop.problem('table.stateNone', { animalId: id, part: 'damage' })).toMatchObject({
      kind: 'refused',
      code: 'none.weighed',
      with: { part: 'damage' },
    });
    await shop.call('table.stateNone', { animalId: id, part: 'bone' });
    expect((await shop.problem('table.stateNone', { animalId: id, part: 'bone' })).code).toBe('none.stated');
    expect((await shop.problem('table.stateNone', { animalId: id, part: 'trim' })).code).toBe('choice.part');
    const held = await takeIn(shop, { sample: 'L1' });
    expect((await shop.problem('table.stateNone', { animalId: held, part: 'bone' })).code).toBe('cut.held');
    await shop.call('animals.dispose', { id, what: 'All', how: 'Landfill', reason: 'spoiled' });
    expect((await shop.problem('table.stateNone', { animalId: id, part: 'sinew' })).code).toBe(
      'animal.closed',
    );
  });

  it('of saved fat is refused where fat was saved', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '60', 'fat saved': '5' });
    expect((await shop.problem('table.stateNone', { animalId: id, part: 'fat saved' })).code).toBe(
      'none.weighed',
    );
  });
});
