/** What a window holds after each hour of an opening day: deer taken in, weighed and packed, and a visit to each page. */
import type { CDPSession } from 'playwright-core';
import { BETWEEN } from '../../e2e/look-at.ts';
import { openShop } from '../../e2e/shop-window.ts';
import { inventVisitors } from '../../replay/visitors.ts';
import { deerOnly, replayInWindow } from '../../replay/window-day.ts';
import { places } from '../../../src/ui/frame/places.ts';
import { handOn } from './hand.ts';
import { installWatch, type Faults } from './on-page.ts';

/** A busy machine is no defect. */
const PATIENCE_MS = 90_000;
/** Deer of an hour. */
const DEER = 5;
const VIEWS = ['pounds', 'flow', 'money', 'fat', 'check', 'compare', 'animals', 'costs'];

/** After garbage was collected, at a page that shows nothing of the book. */
export interface Held {
  heapMb: number;
  nodes: number;
  listeners: number;
}

export async function heldByHour(hours: number, faults: Faults): Promise<Held[]> {
  const shop = await openShop();
  const { page, keys, call } = shop;
  try {
    page.setDefaultTimeout(PATIENCE_MS);
    await page.addInitScript(installWatch, faults);
    await page.reload();
    await page.locator('h1').first().waitFor();
    // Quick ones, all of them: the first of a season would be weighed in every part.
    await call('shop.saveSettings', { changes: { detailEvery: 1000 } });
    await call('intake.takeIn', {
      hunter: { name: 'The first of the season' }, species: 'mule-deer', brought: 'skinned', sex: 'unknown', age: 'unknown',
    }); // prettier-ignore
    const visitors = deerOnly(inventVisitors(hours * DEER * 3, 1));
    const hand = await handOn(page, 1);
    const client = await page.context().newCDPSession(page);
    const held: Held[] = [];
    for (let hour = 0; hour < hours; hour++) {
      await replayInWindow({ page, keys }, visitors.slice(hour * DEER, (hour + 1) * DEER));
      for (const to of [...places.map((place) => `#/${place}`), ...VIEWS.map((view) => `#/season/${view}`)])
        await hand.goTo(to);
      await hand.goTo(BETWEEN);
      const now = await heldBy(client);
      held.push(now);
      console.error(`hour ${hour + 1}: ${now.heapMb.toFixed(2)} MB, ${now.nodes} nodes`);
    }
    return held;
  } finally {
    await shop.close();
  }
}

async function heldBy(client: CDPSession): Promise<Held> {
  await client.send('HeapProfiler.collectGarbage');
  const { nodes, jsEventListeners: listeners } = await client.send('Memory.getDOMCounters');
  const { usedSize } = await client.send('Runtime.getHeapUsage');
  return { heapMb: usedSize / 2 ** 20, nodes, listeners };
}
