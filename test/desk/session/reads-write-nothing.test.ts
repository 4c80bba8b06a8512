/**
 * A call that reads never writes: with a full disk, or a file that may not be written, a quote is still answered. Every
 * procedure that reads is asked on a connection that refuses to write (`PRAGMA query_only`) and counts what was written
 * (`total_changes`).
 */
import Database from 'better-sqlite3';
import * as v from 'valibot';
import { afterAll, beforeAll, describe, expect, it, onTestFinished, vi } from 'vitest';
import type { CallInput, CallName, CallOutput } from '../../../src/bridge/contract.ts';
import { openRecordBook, type Book } from '../../../src/book/book.ts';
import type { Db } from '../../../src/book/file/db.ts';
import { DEMO_NOW } from '../../../src/demo/season.ts';
import type { AnyProcedure } from '../../../src/desk/session/procedure.ts';
import { procedures } from '../../../src/desk/procedures.ts';
import { createSession, type Session } from '../../../src/desk/session/session.ts';
import { summariseNext } from '../../../src/desk/session/season-summaries.ts';
import { askedIn, NOT_INTERACTIVE, READINGS, type Asked } from '../../bench/readings.ts';
import type { BenchDesk } from '../../bench/open-desk.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { demoAt } from '../../demo-copy.ts';
import { base64Of, photoOf } from '../../photo-of.ts';
import { guardedDesk } from '../guarded-desk.ts';
import { NOWHERE } from '../ledger/tried.ts';

type Taught = Book['seasonSummaries'];
const disk = vi.hoisted(() => ({ full: false }));
vi.mock('../../../src/book/sums/season-summaries.ts', async (original) => {
  const { seasonSummaries } = await original<{ seasonSummaries: (db: Db) => Taught }>();
  return {
    seasonSummaries: (db: Db) => {
      const records = seasonSummaries(db);
      const keep: Taught['keep'] = (...row) => {
        if (disk.full) throw new Error('disk full');
        records.keep(...row);
      };
      return { ...records, keep };
    },
  };
});

const READS = (Object.keys(procedures) as CallName[]).filter((name) => procedures[name].kind === 'read');
/** The running season and two that are over. */
const OVER = [2024, 2025];
let book: Book;
let session: Session;
let asked: Asked;
const written = (): unknown => book.db.prepare('SELECT total_changes()').pluck().get();
const summarised = (of: Pick<Book, 'db'>): unknown[] =>
  of.db.prepare('SELECT season FROM season_taught ORDER BY 1').pluck().all();

/** Opened anew, so that nothing was learned yet. */
function roomOn(path: string): Session {
  book = openRecordBook(path, DEMO_NOW, true);
  const stay = () => Promise.resolve(session);
  return createSession({
    book,
    demo: false,
    clock: () => DEMO_NOW,
    host: { openDemo: stay, leaveDemo: stay },
  });
}

async function call<N extends CallName>(name: N, input: CallInput<N>): Promise<CallOutput<N>> {
  const { run, input: schema } = procedures[name] as unknown as AnyProcedure & { run: DeskRun };
  return (await run(session, v.parse(schema, input))) as CallOutput<N>;
}
type DeskRun = (session: Session, input: unknown) => unknown;
const desk: Pick<BenchDesk, 'call'> = { call };

const table = Buffer.from('name,phone\nBo Rask,555-0100\n').toString('base64');
const logger = Buffer.from('Date,Time,Temp (F)\n10/9/2026,06:00,36\n').toString('base64');
async function upload(base64: string): Promise<number> {
  const begun = await call('import.begin', { name: 'old.csv' });
  await call('import.addPiece', { upload: begun.upload, from: 0, base64 });
  return begun.upload;
}
/** A batch made by a recipe and the oven's load with it, of those that came last. */
async function smokehouse() {
  const [load] = (await call('loads.list', {})).recent;
  const madeId = load?.batches[0]?.madeId;
  if (!load || madeId === undefined) throw new Error('Nothing was cooked');
  return { loadId: load.id, madeId, recipeId: (await call('made.get', { id: madeId })).recipeId };
}
/** What `READINGS` leaves out because nobody waits for it. */
const OTHERS: Partial<Record<CallName, () => Promise<unknown>>> = {
  'coolers.previewLog': async () =>
    call('coolers.previewLog', { coolerId: asked.coolerId, upload: await upload(logger) }),
  'loads.previewLog': async () =>
    call('loads.previewLog', { id: (await smokehouse()).loadId, upload: await upload(logger) }),
  'loads.get': async () => call('loads.get', { id: (await smokehouse()).loadId }),
  'loads.readings': async () => {
    const { logs } = await call('loads.get', { id: (await smokehouse()).loadId });
    const page = await call('loads.readings', { logId: logs[0]?.id ?? 0 });
    expect(page.readings).not.toEqual([]);
  },
  'recipes.get': async () => call('recipes.get', { id: (await smokehouse()).recipeId }),
  'recipes.check': async () => {
    const { body } = await call('recipes.get', { id: (await smokehouse()).recipeId });
    return call('recipes.check', { body });
  },
  'made.get': async () => call('made.get', { id: (await smokehouse()).madeId }),
  'made.plan': async () => call('made.plan', { id: (await smokehouse()).madeId }),
  'made.label': async () => call('made.label', { id: (await smokehouse()).madeId }),
  'made.forecast': async () =>
    call('made.forecast', { recipeId: (await smokehouse()).recipeId, finishedGrams: 5000, trimGrams: 9000 }),
  'photos.store': () => call('photos.store', { base64: base64Of(photoOf()) }),
  'photos.read': async () => {
    const [photo] = await call('photos.list', { animalId: asked.animalId });
    return call('photos.read', { digest: photo?.digest ?? '' });
  },
  'photos.check': () => call('photos.check', {}),
  'ledger.tryIt': async () => expect(await call('ledger.tryIt', NOWHERE)).toEqual({ wrong: 'unreachable' }),
  'ledger.prepare': async () =>
    expect(await call('ledger.prepare', NOWHERE)).toEqual({ wrong: 'unreachable' }),
  'ledger.getShops': async () =>
    expect(await call('ledger.getShops', { measure: 'fat', split: 'shop' })).toMatchObject({
      wrong: 'no-book',
    }),
  'ledger.getShopRows': async () =>
    expect(await call('ledger.getShopRows', { measure: 'fat', shop: 1 })).toMatchObject({ wrong: 'no-book' }),
  'ledger.readAs': async () =>
    expect(await call('ledger.readAs', { user: 'books', password: 'secret' })).toEqual({ wrong: 'no-book' }),
  'records.check': () => call('records.check', { season: 2026 }),
  'import.begin': () => call('import.begin', { name: 'old.csv' }),
  'import.addPiece': () => upload(table),
  'import.preview': async () => call('import.preview', { kind: 'hunters', upload: await upload(table) }),
  'export.create': async () => {
    for (const what of ['tables', 'text', 'description'] as const) await call('export.create', { what });
  },
  'export.createForHunter': () => call('export.createForHunter', { id: asked.hunterId }),
  'till.exportJournal': async () => {
    const span = { from: '2026-10-01', to: '2026-11-30' };
    for (const what of ['journal', 'summary', 'layout'] as const)
      await call('till.exportJournal', { what, ...span });
  },
  'export.getPiece': async () => {
    const { id } = await call('export.createForHunter', { id: asked.hunterId });
    return call('export.getPiece', { id, from: 0 });
  },
};
const TRIED: readonly [string, CallName, () => Promise<unknown>][] = [
  ...Object.entries(READINGS).map(
    ([words, { call: name, ask }]) => [words, name, () => ask(desk as BenchDesk, asked)] as const,
  ),
  ...Object.entries(OTHERS).map(([name, ask]) => [name, name as CallName, ask] as const),
].map(([words, name, ask]) => [words, name, ask]);

beforeAll(async () => {
  const path = tempBookPath();
  await demoAt(path);
  session = roomOn(path);
  asked = await askedIn(desk as BenchDesk);
}, 120_000);
afterAll(() => book.close());

describe('a query', () => {
  it('is covered below, whichever it is', () => {
    expect([...new Set(TRIED.map(([, name]) => name))].sort()).toEqual([...READS].sort());
    expect(Object.keys(OTHERS).sort()).toEqual(Object.keys(NOT_INTERACTIVE).sort());
  });

  it.each(TRIED)('writes nothing: %s', async (_words, _name, ask) => {
    // As after a start, and without a summary of any season: what is learned is learned by this call.
    book.db.exec('DELETE FROM season_taught');
    session.book.changes.invalidate();
    book.db.pragma('query_only = ON');
    try {
      const before = written();
      await ask();
      expect(written()).toBe(before);
    } finally {
      book.db.pragma('query_only = OFF');
    }
  });

  it('may copy the whole book, which query_only treats as a write, without writing to it', async () => {
    const before = written();
    await call('export.create', { what: 'book' });
    expect(written()).toBe(before);
  });

  it('has the same answer with the summaries of past seasons as without', async () => {
    expect(summarised(book)).toEqual([]);
    const without = await Promise.all([call('season.yields', {}), call('season.check', {})]);
    session.backups.made();
    while (summariseNext(session));
    expect(session.backups.due()).toBe(false);
    expect(summarised(book)).toEqual(OVER);
    session.book.changes.invalidate();
    expect(await Promise.all([call('season.yields', {}), call('season.check', {})])).toEqual(without);
  });
});

describe('upkeep', () => {
  it('summarises past seasons one by one, and again after a summary was deleted', async () => {
    const path = tempBookPath();
    await demoAt(path);
    await guardedDesk(path, DEMO_NOW.toISOString(), { backUpEvery: 1e9, lookEvery: 20 });
    const db = new Database(path);
    await expect.poll(() => summarised({ db }), { timeout: 15_000 }).toEqual(OVER);
    const summary = () => db.prepare('SELECT body FROM season_taught WHERE season = 2025').pluck().get();
    const before = summary();
    // What the triggers do once an animal of the season changed.
    db.exec('DELETE FROM season_taught WHERE season = 2025');
    expect(summary()).toBeUndefined();
    await expect.poll(summary, { timeout: 15_000 }).toBe(before);
    db.close();
  }, 60_000);

  it('reports a summary that could not be written, and does not retry it immediately', async () => {
    const path = tempBookPath();
    await demoAt(path);
    disk.full = true;
    onTestFinished(() => void (disk.full = false));
    const shop = await guardedDesk(path, DEMO_NOW.toISOString(), { backUpEvery: 1e9, lookEvery: 20 });
    await expect.poll(() => shop.broken.map(String), { timeout: 15_000 }).toEqual(['Error: disk full']);
    await new Promise((done) => setTimeout(done, 200));
    expect(shop.broken).toHaveLength(1);
    await shop.call('season.check', {});
  }, 60_000);
});
