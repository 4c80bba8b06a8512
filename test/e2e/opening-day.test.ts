/**
 * The first animals of an opening day, typed as fast as the window accepts; the whole day is `npm run opening-day`.
 */
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { timesTable } from '../replay/stopwatch.ts';
import { inventVisitors } from '../replay/visitors.ts';
import { deerOnly, openingTable, replayInWindow } from '../replay/window-day.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

const FEW = 6;
let shop: ShopWindow;
beforeAll(async () => {
  shop = await openShop();
  await deerAtDesk(shop, 'The first of the season');
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

it('receives, weighs and packs deer after deer by keyboard and barcode', async () => {
  const visitors = deerOnly(inventVisitors(FEW * 3, 1)).slice(0, FEW);
  const { watch, opened, tickets } = await replayInWindow(shop, visitors);
  console.log(['', ...timesTable(watch, 's'), openingTable(opened)].join('\n'));
  const ready = (await shop.call('rail.get', {})).ready.map(({ ticket }) => ticket);
  expect(ready.sort()).toEqual(tickets.toSorted());
  for (const [i, { hunter, hangingLb, tag }] of visitors.entries()) {
    const page = await shop.call('animals.get', { ticket: tickets[i] ?? '' });
    expect([page.hunter.name, page.tag]).toEqual([hunter.name, tag]);
    expect((page.weights.hangingGrams ?? 0) / 453.59237).toBeCloseTo(Number(hangingLb), 9);
    expect(page.packages).toHaveLength(2);
  }
  expect(shop.complaints).toEqual([]);
}, 90_000);
