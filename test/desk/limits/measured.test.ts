/**
 * `npm run limits`: how long each call holds the desk on the book of twenty large seasons, beside what the table states.
 * Readings are asked of a desk that has nothing at hand yet. A busy machine is no defect, so the usual tests leave it out, and what
 * is over its bar is measured up to three times: the best counts.
 */
import { copyFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { CallName } from '../../../src/bridge/contract.ts';
import { procedures } from '../../../src/desk/procedures.ts';
import { DEMO_NOW } from '../../../src/demo/season.ts';
import { largeBook } from '../../bench/large-book.ts';
import { oldTable } from '../../bench/old-table.ts';
import { askedIn, READINGS } from '../../bench/readings.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { demoAt } from '../../demo-copy.ts';
import { uploadFile, previewTable } from '../import/import-file.ts';
import { deskOn, freshDesk, type FreshDesk } from '../fresh-desk.ts';
import { GOOD, importLog, loadOf, logFile, readingsAlong } from '../smokehouse/load-of.ts';
import { stuffed } from '../smokehouse/made-of.ts';
import { floorOn } from '../stations/floor.ts';
import { TRIED } from '../tried-writes.ts';
import { bestHeld, type Held } from './held.ts';
import { LIMITS, NOT_MEASURED } from './table.ts';

const SEASONS = 20;

async function largeDesk(): Promise<FreshDesk> {
  const path = tempBookPath();
  copyFileSync(await largeBook(SEASONS), path);
  return deskOn(path, DEMO_NOW.toISOString());
}

/** Calls that only a file, a backup or another season shows at their longest; each is prepared anew for every try. */
const OTHERS: Partial<Record<CallName, (shop: FreshDesk) => Promise<() => Promise<unknown>>>> = {
  'shop.backUp': async (shop) => () => shop.call('shop.backUp', {}),
  'shop.listBackups': async (shop) => () => shop.call('shop.listBackups', {}),
  'shop.tryBackup': async (shop) => {
    const { rows } = await shop.call('shop.listBackups', {});
    return () => shop.call('shop.tryBackup', { path: rows[0]?.path ?? '' });
  },
  'stations.newCode': async (shop) => {
    await floorOn(shop);
    return () => shop.call('stations.newCode', {});
  },
  'stations.refuse': async (shop) => {
    const { request } = await (await floorOn(shop)).asking();
    return () => shop.call('stations.refuse', { request });
  },
  'records.check': async (shop) => () => shop.call('records.check', {}),
  'records.list': async (shop) => () => shop.desk.call('records.list', { from: '1950-01-01' }),
  'coolers.previewLog': async (shop) => {
    const upload = await uploadFile(shop, loggerFile());
    const [cooler] = await shop.call('coolers.list', {});
    return () => shop.call('coolers.previewLog', { upload, coolerId: cooler?.id ?? 0 });
  },
  'coolers.importLog': async (shop) => {
    const upload = await uploadFile(shop, loggerFile());
    const { id } = await shop.call('coolers.save', { name: `Logged ${loggerYear}`, places: 9 });
    return () => shop.call('coolers.importLog', { upload, coolerId: id, confirmed: true });
  },
  'loads.previewLog': async (shop) => {
    const { loadId } = await loadOf(shop);
    const upload = await uploadFile(shop, logFile(readingsAlong(GOOD)));
    return () => shop.call('loads.previewLog', { id: loadId, upload });
  },
  'loads.get': async (shop) => {
    const { loadId } = await loadOf(shop);
    await importLog(shop, loadId, logFile(readingsAlong(GOOD)));
    return () => shop.call('loads.get', { id: loadId });
  },
  'loads.readings': async (shop) => {
    const { loadId } = await loadOf(shop);
    const { id: logId } = await importLog(shop, loadId, logFile(readingsAlong(GOOD)));
    return () => shop.call('loads.readings', { logId });
  },
  'recipes.get': async (shop) => {
    const { recipeId } = await stuffed(shop);
    return () => shop.call('recipes.get', { id: recipeId });
  },
  'recipes.check': async (shop) => {
    const { recipeId } = await stuffed(shop);
    const { body } = await shop.call('recipes.get', { id: recipeId });
    return () => shop.call('recipes.check', { body });
  },
  'made.get': async (shop) => {
    const { id } = await stuffed(shop);
    return () => shop.call('made.get', { id });
  },
  'made.plan': async (shop) => {
    const { id } = await stuffed(shop);
    return () => shop.call('made.plan', { id });
  },
  'made.label': async (shop) => {
    const { id } = await stuffed(shop);
    return () => shop.call('made.label', { id });
  },
  'made.forecast': async (shop) => {
    const { recipeId } = await stuffed(shop);
    return () => shop.call('made.forecast', { recipeId, finishedGrams: 5000 });
  },
  'import.begin': async (shop) => () => shop.call('import.begin', { name: 'old.csv' }),
  'import.addPiece': async (shop) => {
    const { upload } = await shop.call('import.begin', { name: 'old.csv' });
    const base64 = Buffer.alloc(500_000, 'x').toString('base64');
    return () => shop.call('import.addPiece', { upload, from: 0, base64 });
  },
  'import.preview': async (shop) => {
    const upload = await uploadFile(shop, oldTable());
    return () => shop.call('import.preview', { upload, kind: 'animals' });
  },
  'import.run': async (shop) => {
    const { upload, layout } = await previewTable(shop, 'animals', oldTable());
    return () => shop.call('import.run', { upload, kind: 'animals', layout, confirmed: true });
  },
  'import.undo': async (shop) => {
    const first = (await shop.call('import.list', {})).find(({ undoneAt }) => undoneAt === null);
    return () => shop.call('import.undo', { id: first?.id ?? 0 });
  },
  'export.create': async (shop) => async () => {
    for (const what of ['book', 'text', 'tables', 'description'] as const)
      await shop.call('export.create', { what });
  },
  'till.exportJournal': async (shop) => async () => {
    for (const what of ['journal', 'summary'] as const)
      await shop.call('till.exportJournal', { what, from: '2007-01-01', to: '2026-12-31' });
  },
  'export.createForHunter': async (shop) => {
    const { hunter } = await shop.call('animals.get', { ticket: '26-0147' });
    return () => shop.call('export.createForHunter', { id: hunter.id });
  },
  'export.getPiece': async (shop) => {
    const { id } = await shop.call('export.create', { what: 'description' });
    return () => shop.call('export.getPiece', { id, from: 0 });
  },
  'import.book': async () => {
    const from = await deskOn(await demoBookAt());
    const { id } = await from.call('export.create', { what: 'text' });
    const pieces: Buffer[] = [];
    for (let last = false, at = 0; !last;) {
      const piece = await from.call('export.getPiece', { id, from: at });
      pieces.push(Buffer.from(piece.base64, 'base64'));
      at += pieces.at(-1)?.length ?? 0;
      ({ last } = piece);
    }
    from.desk.close();
    const empty = await freshDesk();
    const upload = await uploadFile(empty, Buffer.concat(pieces));
    return async () => {
      await empty.call('import.book', { upload });
      empty.desk.close();
    };
  },
  'shop.restore': async (shop) => {
    const { rows } = await shop.call('shop.listBackups', {});
    return () => shop.call('shop.restore', { path: rows[0]?.path ?? '' });
  },
  'shop.tryAgain': async (shop) => () => shop.call('shop.tryAgain', {}),
  'shop.openDemo': async (shop) => () => shop.call('shop.openDemo', {}),
  'shop.leaveDemo': async (shop) => async () => shop.call('shop.leaveDemo', {}),
};
/** These change what the others are measured on: the unit, and which book is open. */
const LAST: readonly CallName[] = [
  'shop.setUp',
  'shop.restore',
  'shop.tryAgain',
  'shop.openDemo',
  'shop.leaveDemo',
];

/** A month of a logger that reads every minute, each time of another year. */
let loggerYear = 2004;
function loggerFile(): string {
  loggerYear += 1;
  const start = Date.UTC(loggerYear, 9, 1);
  const rows = Array.from({ length: 31 * 24 * 60 }, (_, n) => {
    const at = new Date(start + n * 60_000).toISOString();
    return `${at.slice(0, 10)},${at.slice(11, 16)},${35 + (n % 5)}`;
  });
  return ['Date,Time,Temp (F)', ...rows].join('\n');
}

async function demoBookAt(): Promise<string> {
  const path = tempBookPath();
  await demoAt(path);
  return path;
}

/** Lets the desk forget all that it keeps at hand, as after a start: another program writes. */
function forgetAll({ bookPath }: FreshDesk): void {
  const db = new Database(bookPath, { timeout: 60_000 });
  db.prepare("INSERT OR REPLACE INTO setting (key, value) VALUES ('limitsMeasured', ?)").run(
    String(Math.round(performance.now())),
  );
  db.close();
}

describe.runIf(import.meta.env.MODE === 'limits')('how long each call holds the desk', () => {
  it('is what the table of limits states', async () => {
    const shop = await largeDesk();
    const measured = new Map<CallName, Held & { tries: number }>();
    const problems: string[] = [];
    const measure = async (name: CallName, prepare: () => Promise<() => Promise<unknown>>): Promise<void> => {
      try {
        const one = await bestHeld(prepare, LIMITS[name].heldMs);
        if (one.heldMs > (measured.get(name)?.heldMs ?? -1)) measured.set(name, one);
      } catch (error) {
        problems.push(`${name}: ${String(error).slice(0, 300)}`);
      }
    };
    const tried = async (name: CallName): Promise<void> => {
      const ready = TRIED[name];
      if (!ready) return;
      await measure(name, async () => {
        shop.wait(3600);
        const [, input] = await ready(shop);
        return async () => {
          const answer = await shop.desk.call(name, input);
          if (!answer.ok) throw new Error(JSON.stringify(answer.problem));
        };
      });
    };
    const other = async (name: CallName): Promise<void> => {
      const prepare = OTHERS[name];
      if (prepare) await measure(name, () => prepare(shop));
    };
    const asked = await askedIn(shop as never);
    for (const { call, ask } of Object.values(READINGS))
      await measure(call, async () => {
        forgetAll(shop);
        await shop.call('shop.get', {});
        return () => ask(shop as never, asked);
      });
    const rest = (names: string[]): CallName[] =>
      (names as CallName[]).filter((name) => !LAST.includes(name));
    for (const name of rest(Object.keys(OTHERS))) await other(name);
    for (const name of rest(Object.keys(TRIED))) if (!measured.has(name)) await tried(name);
    for (const name of LAST) await (OTHERS[name] ? other(name) : tried(name));

    const rows = [...measured].map(([name, { heldMs, tookMs, tries }]) => ({
      call: name,
      held: Math.round(heldMs),
      stated: LIMITS[name].heldMs,
      took: Math.round(tookMs),
      tries,
    }));
    console.table(rows.sort((a, b) => b.held - a.held));
    shop.desk.close();
    expect(problems).toEqual([]);
    const without = Object.keys(procedures).filter((name) => !measured.has(name as CallName));
    expect(without.sort()).toEqual(Object.keys(NOT_MEASURED).sort());
    expect(rows.filter(({ held: ms, stated }) => ms > stated).map(({ call }) => call)).toEqual([]);
  }, 3_600_000);
});
