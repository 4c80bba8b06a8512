/** A shelf full of fat lots at as many prices: the plan is still the cheapest, and comes while somebody stands there. */
import { describe, expect, it } from 'vitest';
import { MAX_OF_SHOP } from '../../../src/desk/session/list-limits.ts';
import { cut, freshDesk, takeIn } from '../fresh-desk.ts';

const LOTS = MAX_OF_SHOP.fat.most;

describe('as many lots of bought fat as a shop may have', () => {
  it('of as many prices and fats, most of which go in, are planned in a bounded time', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '250' });
    for (let n = 0; n < LOTS; n++)
      await shop.call('fat.receive', {
        source: 'pork-back-fat',
        typed: '0.5',
        costTyped: (1 + n / 100).toFixed(2),
        fatPercent: 60 + n / 10,
      });
    const started = process.threadCpuUsage();
    const plan = await shop.call('grinder.plan', { animals: [{ id }], fat: 'pork-back-fat', targetFat: 0.2 });
    const { user, system } = process.threadCpuUsage(started);
    if (plan.kind !== 'plan') throw new Error(plan.kind);
    expect(plan.parts.length).toBeGreaterThan(LOTS / 2);
    expect(plan.fat).toBeCloseTo(0.2, 2);
    // Eight seconds before, when the worth of one more kilogram of each lot was worked out and never shown.
    expect((user + system) / 1000).toBeLessThan(1500);
    const asked = { animals: [{ id }], fat: 'pork-back-fat', targetFat: 0.2, product: 'Ground' };
    const begun = await shop.call('grinder.start', asked);
    expect((await shop.call('grinder.get', {})).open.map(({ id: open }) => open)).toEqual([begun.id]);
    expect(shop.broken).toEqual([]);
  }, 120_000);
});
