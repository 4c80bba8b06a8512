/** What a ledger costs: a save with the log and while it is sent, the first load beside a plain COPY, the way back, and the owner's view. */
import { mkdtempSync, rmSync, writeFileSync, appendFileSync, chmodSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { openRecordBook } from '../../src/book/book.ts';
import { eachRow } from '../../src/book/file/each-row.ts';
import { identityOf } from '../../src/book/file/book-identity.ts';
import { DEMO_NOW } from '../../src/demo/season.ts';
import type { FeedState } from '../../src/ledger/feed/feeder.ts';
import { startThread } from '../../src/ledger/feed/thread.ts';
import { MEASURES } from '../../src/ledger/owner/asked.ts';
import { ownerGroups } from '../../src/ledger/owner/groups.ts';
import { bookFromLedger } from '../../src/ledger/rebuild/book-from-ledger.ts';
import { prepare } from '../../src/ledger/server/prepare.ts';
import type { Server } from '../../src/ledger/server/server.ts';
import { ledgerTables, type LedgerTable } from '../../src/ledger/tables/ledger-tables.ts';
import { bookRows, differences } from '../ledger/compare.ts';
import { OWNER, PASSWORD, startServer, SUPERUSER, type RealServer } from '../ledger/server/real-server.ts';
import { deskOn } from './open-desk.ts';
import { judged, middle, type Figure } from './timing.ts';
import { weighingAnimal } from './weighing-animal.ts';

const PROGRAM = new URL('../../src/ledger/worker.ts', import.meta.url);
const SAVES = 400;
/** Between two saves, ms: far less than between two weights of ten people. */
const APART = 8;

export async function ledgerWork(seasons: number): Promise<Figure[]> {
  const server = await startServer();
  const database = await server.newDatabase();
  const owner = await server.as(database, OWNER);
  await prepare(owner);
  const [plain, fed] = [await deskOn(seasons), await deskOn(seasons)];
  const begun = beginFeed(fed.path);
  const [weighPlain, weighFed] = [await weighingAnimal(plain), await weighingAnimal(fed)];

  const saves = await inTurns(weighPlain, weighFed);
  const load = await firstLoad(server, database, fed.path);
  const steady = await timesOf(weighFed);
  const idle = await timesOf(weighPlain);
  load.stop();
  const copied = await plainCopy(server, database, fed.path);
  plain.close();

  const back = join(mkdtempSync(join(tmpdir(), 'gambrel-bench-')), 'back.gambrel');
  const started = performance.now();
  await bookFromLedger(owner, 1, back, DEMO_NOW);
  const backMs = performance.now() - started;
  const differ = differences(bookRows(fed.path), bookRows(back));
  const seen = await ownersView(owner);
  fed.close();
  await owner.end();
  await server.remove();
  rmSync(join(back, '..'), { recursive: true });
  return [
    { name: 'begin the log of a fed book', value: begun, unit: 'ms' as const },
    {
      name: 'a save with the log',
      value: middle(saves.fed),
      unit: 'ms' as const,
      baseline: { what: 'a save without', value: middle(saves.plain) },
      bar: { ratio: 1.05 },
    },
    {
      name: 'a save while its book is fed, 95 %',
      value: late(steady),
      unit: 'ms' as const,
      baseline: { what: 'a save without, 95 %', value: late(idle) },
      bar: { ratio: 1.2 },
    },
    {
      name: 'first load of the book',
      note: `${load.rows} rows`,
      value: load.ms,
      unit: 'ms' as const,
      baseline: { what: 'COPY of the same rows', value: copied },
      bar: { ratio: 4 },
    },
    {
      name: 'the book back from the ledger',
      note: differ.length === 0 ? 'not a row differs' : `DIFFERENT: ${differ.join('; ')}`,
      value: backMs,
      unit: 'ms' as const,
    },
    ...seen,
  ].map(judged);
}

/** Every measure of the owner's view, all seasons by species, without a season or species that would narrow it. */
async function ownersView(owner: Server): Promise<{ name: string; value: number; unit: 'ms' }[]> {
  await owner.script('ANALYZE');
  const figures = [];
  for (const measure of MEASURES)
    figures.push({
      name: `the owner's view: ${measure}`,
      value: await timeOf(() => ownerGroups(owner, { measure, split: 'species' })),
      unit: 'ms' as const,
    });
  return figures;
}

const late = (times: readonly number[]): number =>
  times.toSorted((a, b) => a - b)[Math.floor(times.length * 0.95)] ?? NaN;

/** On a connection of its own, as another program would: the desk looks for such writes before each call. */
function beginFeed(path: string): number {
  const book = openRecordBook(path, DEMO_NOW, false, true);
  const started = performance.now();
  book.change(() => book.feed.begin());
  const ms = performance.now() - started;
  book.leave();
  return ms;
}

/** Both desks by turns, so that a busy moment hits both. */
async function inTurns(plain: () => Promise<unknown>, fed: () => Promise<unknown>) {
  const times = { plain: [] as number[], fed: [] as number[] };
  for (let i = 0; i < SAVES; i++)
    for (const [kind, save] of i % 2 === 0
      ? [['plain', plain] as const, ['fed', fed] as const]
      : [['fed', fed] as const, ['plain', plain] as const])
      times[kind].push(await timeOf(save));
  return times;
}

async function timesOf(save: () => Promise<unknown>): Promise<number[]> {
  const times: number[] = [];
  for (let i = 0; i < SAVES; i++) {
    times.push(await timeOf(save));
    await new Promise((resolve) => setTimeout(resolve, APART));
  }
  return times;
}

async function timeOf(work: () => Promise<unknown>): Promise<number> {
  const started = performance.now();
  await work();
  return performance.now() - started;
}

/** From the start of a feeder to the last row. It goes on feeding until it is stopped. */
async function firstLoad(server: RealServer, database: string, bookPath: string) {
  const db = new Database(bookPath, { readonly: true });
  const book = identityOf(db) ?? '';
  const rows = Number(db.prepare('SELECT max(seq) FROM feed_change').pluck().get());
  db.close();
  const started = performance.now();
  let even = (): void => undefined;
  const done = new Promise<void>((resolve) => (even = resolve));
  const thread = startThread(
    PROGRAM,
    {
      bookPath, branch: { book, branch: 1 }, name: 'Bench', privacy: { personal: true, known: [] },
      address: server.address(database, OWNER), password: PASSWORD,
    },
    {
      onState: ({ kind }: FeedState) => kind === 'even' && even(),
      onBroken: (error) => console.error(error),
    },
  ); // prettier-ignore
  await done;
  return { ms: performance.now() - started, rows, stop: thread.stop };
}

/** The same rows into the same tables, from files that the server itself reads. */
async function plainCopy(server: RealServer, database: string, path: string): Promise<number> {
  const superuser = await server.as(database, SUPERUSER);
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-copy-'));
  chmodSync(folder, 0o755);
  const db = new Database(path, { readonly: true });
  const tables = ledgerTables(db);
  for (const table of tables) writeCopy(db, table, join(folder, table.name));
  db.close();
  await superuser.script(
    `CREATE SCHEMA copied; ${tables.map(({ name }) => `CREATE TABLE copied."${name}" (LIKE ledger."${name}" INCLUDING ALL)`).join(';')}`,
  );
  const started = performance.now();
  for (const { name, columns } of tables)
    await superuser.script(
      `COPY copied."${name}" (shop, ${columns.map((one) => `"${one.name}"`).join()}) FROM '${join(folder, name)}'`,
    );
  const ms = performance.now() - started;
  await superuser.end();
  rmSync(folder, { recursive: true });
  return ms;
}

/** In COPY's own text format. */
function writeCopy(db: Database.Database, { name, columns }: LedgerTable, file: string): void {
  const escaped = (value: unknown): string =>
    value === null
      ? '\\N'
      : String(value)
          .replaceAll('\\', '\\\\')
          .replaceAll('\n', '\\n')
          .replaceAll('\t', '\\t')
          .replaceAll('\r', '\\r');
  writeFileSync(file, '', { mode: 0o644 });
  let lines: string[] = [];
  const rows = db
    .prepare<[], unknown[]>(`SELECT ${columns.map((one) => `"${one.name}"`).join()} FROM "${name}"`)
    .raw();
  for (const row of eachRow(rows)) {
    lines.push(['1', ...row.map(escaped)].join('\t'));
    if (lines.length < 20_000) continue;
    appendFileSync(file, `${lines.join('\n')}\n`);
    lines = [];
  }
  if (lines.length > 0) appendFileSync(file, `${lines.join('\n')}\n`);
}
