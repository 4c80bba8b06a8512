/**
 * `npm run limits`: how long each call holds the desk on the book of twenty large seasons, beside what the table states.
 * A busy machine is no defect, so the usual tests leave it out.
 */
import { copyFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CallName } from '../../../src/bridge/contract.ts';
import { procedures } from '../../../src/desk/procedures.ts';
import { DEMO_NOW } from '../../../src/demo/season.ts';
import { largeBook } from '../../bench/large-book.ts';
import { oldTable } from '../../bench/old-table.ts';
import { askedIn, READINGS } from '../../bench/readings.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { handOver, lookAt } from '../bring/bring-file.ts';
import { deskOn, type FreshDesk } from '../fresh-desk.ts';
import { TRIED } from '../tried-writes.ts';
import { LIMITS } from './table.ts';

const SEASONS = 20;

interface Held {
  /** Longest time between two turns of other calls, ms. */
  heldMs: number;
  tookMs: number;
}

/** How long the thread that answers was not free while `work` went on. */
async function held(work: () => Promise<unknown>): Promise<Held> {
  const started = performance.now();
  let [last, longest, over] = [started, 0, false];
  const look = (): void => {
    const now = performance.now();
    longest = Math.max(longest, now - last);
    last = now;
  };
  const turn = (): void => {
    look();
    if (!over) setImmediate(turn);
  };
  setImmediate(turn);
  try {
    await work();
  } finally {
    over = true;
    look();
  }
  return { heldMs: longest, tookMs: performance.now() - started };
}

async function largeDesk(): Promise<FreshDesk> {
  const path = tempBookPath();
  copyFileSync(await largeBook(SEASONS), path);
  return deskOn(path, DEMO_NOW.toISOString());
}

/** Calls that only a file, a backup or another season shows at their longest. */
const OTHERS: Partial<Record<CallName, (shop: FreshDesk) => Promise<() => Promise<unknown>>>> = {
  'shop.backUp': async (shop) => () => shop.call('shop.backUp', {}),
  'shop.backups': async (shop) => () => shop.call('shop.backups', {}),
  'shop.tryBackup': async (shop) => {
    const { rows } = await shop.call('shop.backups', {});
    return () => shop.call('shop.tryBackup', { path: rows[0]?.path ?? '' });
  },
  'books.check': async (shop) => () => shop.call('books.check', {}),
  'books.records': async (shop) => () => shop.desk.call('books.records', { from: '1950-01-01' }),
  'bring.look': async (shop) => {
    const upload = await handOver(shop, oldTable());
    return () => shop.call('bring.look', { upload, kind: 'animals' });
  },
  'bring.bringIn': async (shop) => {
    const { upload, layout } = await lookAt(shop, 'animals', oldTable());
    return () => shop.call('bring.bringIn', { upload, kind: 'animals', layout, sure: true });
  },
  'bring.undo': async (shop) => {
    const [first] = await shop.call('bring.list', {});
    return () => shop.call('bring.undo', { id: first?.id ?? 0 });
  },
  'takeout.pack': async (shop) => async () => {
    for (const what of ['book', 'text', 'tables'] as const) await shop.call('takeout.pack', { what });
  },
  'takeout.packHunter': async (shop) => {
    const { hunter } = await shop.call('animals.open', { ticket: '26-0147' });
    return () => shop.call('takeout.packHunter', { id: hunter.id });
  },
};

describe.runIf(import.meta.env.MODE === 'limits')('how long each call holds the desk', () => {
  it('is what the table of limits states', async () => {
    const shop = await largeDesk();
    const measured = new Map<CallName, Held>();
    const note = (name: CallName, one: Held): void => {
      if (one.heldMs > (measured.get(name)?.heldMs ?? -1)) measured.set(name, one);
    };
    const asked = await askedIn(shop as never);
    for (const { call, ask } of Object.values(READINGS))
      note(call, await held(() => ask(shop as never, asked)));
    for (const [name, prepare] of Object.entries(OTHERS)) {
      const work = await prepare(shop);
      note(name as CallName, await held(work));
    }
    for (const [name, prepare] of Object.entries(TRIED)) {
      if (measured.has(name as CallName)) continue;
      shop.wait(3600);
      // Each was made for a shop of its own: what another one left (a cooler of the same name) stands in the way of a few.
      const ready = await Promise.resolve(prepare(shop)).catch(() => null);
      if (ready) note(ready[0], await held(() => shop.desk.call(ready[0], ready[1])));
    }
    const rows = [...measured].map(([name, { heldMs, tookMs }]) => ({
      call: name,
      held: Math.round(heldMs),
      stated: LIMITS[name].heldMs,
      took: Math.round(tookMs),
    }));
    console.table(rows.sort((a, b) => b.held - a.held));
    const without = Object.keys(procedures).filter((name) => !measured.has(name as CallName));
    console.log(
      `Not measured, for they open another book, are a carrier's own step or could not be prepared here: ${without.join(', ')}`,
    );
    expect(rows.filter(({ held: ms, stated }) => ms > stated).map(({ call }) => call)).toEqual([]);
    shop.desk.close();
  }, 900_000);
});
