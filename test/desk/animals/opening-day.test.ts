/** A hundred animals on one opening day, replayed at the desk; what must then hold of the book as a whole. */
import { describe, expect, it } from 'vitest';
import { replayDay } from '../../replay/desk-day.ts';
import { timesTable } from '../../replay/stopwatch.ts';
import { inventVisitors } from '../../replay/visitors.ts';
import { freshDesk } from '../fresh-desk.ts';

const HUNDRED = 100;

describe('an opening day of a hundred animals', () => {
  it('leaves every ticket handed over and every pound accounted for', async () => {
    const shop = await freshDesk('lb', '2026-11-14T15:00:00Z');
    const { watch, calls, animals } = await replayDay(shop, inventVisitors(HUNDRED, 1));
    console.log(['', `${calls} calls for ${animals.length} animals`, ...timesTable(watch, 'ms')].join('\n'));

    expect(animals.map(({ ticket }) => ticket)).toEqual(
      animals.map((_, i) => `26-${String(i + 1).padStart(4, '0')}`),
    );
    expect(animals.some(({ sample }) => sample)).toBe(true);
    const records = await shop.call('records.list', { season: 2026 });
    expect(records).toHaveLength(HUNDRED);
    expect(
      records.every(({ stage, releasedOn, releasedTo }) => stage === 'released' && releasedOn && releasedTo),
    ).toBe(true);

    const detailed: string[] = [];
    const doubted: string[] = [];
    for (const { ticket, wants } of animals) {
      const page = await shop.call('animals.get', { ticket });
      if (page.detail === 'detailed') detailed.push(ticket);
      expect(page.trimLeftGrams, ticket).toBeLessThan(1e-6);
      expect(page.balance.overGrams, ticket).toBe(0);
      if (page.balance.suspects.length > 0) doubted.push(ticket);
      expect(page.batches, ticket).toHaveLength(1);
      const ground = page.packages.filter(({ batch }) => batch !== null);
      expect(
        ground.map(({ product }) => product),
        ticket,
      ).toEqual([wants === 'sausage' ? 'Breakfast sausage' : 'Ground']);
    }
    // Every tenth from the first is cut in detail.
    expect(detailed).toEqual(animals.filter((_, i) => i % 10 === 0).map(({ ticket }) => ticket));

    // One right animal in a hundred is doubted by the rule of the balance; more than four of a hundred would be 0.4 % luck.
    expect(doubted.length).toBeLessThanOrEqual(4);

    // All batches: packages and lean among the owners add up, and what left the fat lots went into them.
    const look = await shop.call('grinder.get', {});
    expect(look.waiting).toEqual([]);
    expect(look.open).toEqual([]);
    let fatIn = 0;
    const ids = new Set<number>();
    for (const { ticket } of animals)
      for (const { id } of (await shop.call('animals.get', { ticket })).batches) ids.add(id);
    for (const id of ids) {
      const batch = await shop.call('grinder.getBatch', { id });
      const sum = (values: number[]): number => values.reduce((total, value) => total + value, 0);
      expect(sum(batch.owners.map((owner) => owner.packages))).toBe(
        sum(batch.packages.map(({ count }) => count)),
      );
      expect(sum(batch.owners.map((owner) => owner.shareGrams))).toBeCloseTo(batch.outGrams, 6);
      expect(sum(batch.owners.map((owner) => owner.leanGrams)) + batch.fatAddedGrams).toBeCloseTo(
        batch.inGrams,
        6,
      );
      fatIn += batch.fatAddedGrams;
    }
    const lots = await shop.call('fat.listLots', {});
    const gone = lots.reduce((total, lot) => total + lot.startGrams - lot.leftGrams, 0);
    expect(gone).toBeCloseTo(fatIn, 6);
    expect(gone).toBeGreaterThan(0);
    expect(shop.broken).toEqual([]);
  }, 60_000);
});
