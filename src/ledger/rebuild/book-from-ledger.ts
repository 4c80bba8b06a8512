/**
 * A book made from a ledger, for a computer that was lost: every row up to the last change that was sent. Look-ups and summaries
 * are computed anew, PINs are set anew. It goes on in the same branch, so the lost computer, should it turn up, may not.
 */
import { rmSync } from 'node:fs';
import Database from 'better-sqlite3';
import { feedLog, type FeedPlace } from '../../book/feed/feed.ts';
import { isFed } from '../../book/feed/feed-schema.ts';
import { bookErrorOf } from '../../book/file/book-error.ts';
import { invalidTime } from '../../book/file/check-moments.ts';
import type { Db } from '../../book/file/db.ts';
import { closeBook, openBook } from '../../book/file/open.ts';
import { recompute } from '../../book/file/records-only.ts';
import { tablesOf } from '../../book/file/tables.ts';
import { setTriggersAside } from '../../book/file/without-triggers.ts';
import { APPLICATION_ID, BOOK_VERSION, MIGRATIONS } from '../../book/migrations/index.ts';
import { LedgerError } from '../server/ledger-error.ts';
import { columnsOf, serverTables } from '../server/prepared.ts';
import { one, quoted, type Server } from '../server/server.ts';
import type { BookValue } from '../feed/encode.ts';
import { ledgerTables, type LedgerTable } from '../tables/ledger-tables.ts';
import { rowsOf } from './ledger-rows.ts';

/** How far it is: rows that are in the book, of all that the ledger has of it. */
export interface RebuildProgress {
  rows: number;
  of: number;
}

/** Rows between two reports. */
const REPORT_EVERY = 2_000;

/**
 * Makes the book of a branch at `path`, where nothing is yet. It reads one state of the ledger, whatever is written meanwhile.
 * @param report told from time to time how far it is, and once when all rows are there and are checked
 * @throws LedgerError `empty` when the ledger has nothing of it, `newer` when a newer program wrote it, `unsound` when its rows make no sound book; then
 *   nothing is left at `path`
 * @throws BookError when it cannot be written there
 */
export async function bookFromLedger(
  server: Server,
  shop: number,
  path: string,
  now: Date,
  report: (progress: RebuildProgress) => void = () => undefined,
): Promise<FeedPlace> {
  await server.script('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
  try {
    const [row] = await server.rows('SELECT seq, mark, book_version FROM ledger.shop WHERE shop = $1', [
      shop,
    ]);
    if (!row || Number(row[0]) === 0) throw new LedgerError('empty');
    const [place, version] = [{ seq: Number(row[0]), mark: Number(row[1]) }, Number(row[2])];
    if (version > BOOK_VERSION) throw new LedgerError('newer');
    await fillBook(server, shop, path, version, report);
    goOn(path, now, place);
    return place;
  } catch (error) {
    for (const ending of ['', '-wal', '-shm', '-journal']) rmSync(path + ending, { force: true });
    throw error;
  } finally {
    await server.script('ROLLBACK');
  }
}

async function fillBook(
  server: Server,
  shop: number,
  path: string,
  version: number,
  report: (progress: RebuildProgress) => void,
): Promise<void> {
  const db = new Database(path);
  try {
    db.pragma('journal_mode = OFF');
    db.pragma('synchronous = OFF');
    db.pragma('foreign_keys = OFF');
    for (const step of MIGRATIONS.slice(0, version)) db.exec(step);
    const putBack = setTriggersAside(db, () => true);
    const found = await serverTables(server);
    const tables = ledgerTables(db).map((table) => ({ table, known: columnsOf(found, table) }));
    const progress = { rows: 0, of: await countOf(server, shop, tables) };
    const count = (): void => {
      if (progress.rows++ % REPORT_EVERY === 0) report({ ...progress });
    };
    for (const { table, known } of tables) await fillTable(db, server, shop, table, known, count);
    report({ rows: progress.of, of: progress.of });
    putBack();
    for (const { name } of tablesOf(db)) if (/_lookup$/.test(name)) recompute(db, name);
    db.pragma(`application_id = ${APPLICATION_ID}`);
    db.pragma(`user_version = ${version}`);
    refuseUnsound(db);
  } catch (error) {
    if (error instanceof Database.SqliteError && /^SQLITE_(CONSTRAINT|MISMATCH)/.test(error.code))
      throw new LedgerError('unsound', error.message);
    throw error instanceof LedgerError || !(error instanceof Database.SqliteError)
      ? error
      : bookErrorOf(error, path);
  } finally {
    db.close();
  }
}

interface FoundTable {
  table: LedgerTable;
  known: ReadonlySet<string> | undefined;
}

/** Rows that the ledger has of a branch. */
async function countOf(server: Server, shop: number, tables: readonly FoundTable[]): Promise<number> {
  const names = tables.filter(({ known }) => known).map(({ table }) => table.name);
  const counts = [...names, 'other', 'quarantine'].map(
    (name) => `(SELECT count(*) FROM ledger.${quoted(name)} WHERE shop = $1)`,
  );
  return Number(await one(server, `SELECT ${counts.join(' + ')}`, [shop]));
}

async function fillTable(
  db: Db,
  server: Server,
  shop: number,
  table: LedgerTable,
  known: ReadonlySet<string> | undefined,
  count: () => void,
): Promise<void> {
  const names = table.columns.map(({ name }) => `"${name}"`);
  const insert = db.prepare<BookValue[]>(
    `INSERT INTO "${table.name}" (${names.join()}) VALUES (${names.map(() => '?').join()})`,
  );
  db.exec('BEGIN');
  db.exec(`DELETE FROM "${table.name}"`); // a migration may have put rows into it
  for await (const row of rowsOf(server, shop, table, known)) {
    insert.run(...row);
    count();
  }
  db.exec('COMMIT');
}

/** As a restored backup is checked. */
function refuseUnsound(db: Db): void {
  const loose = db.pragma('foreign_key_check') as { table: string }[];
  if (loose[0])
    throw new LedgerError('unsound', `${loose.length} loose ends, the first in ${loose[0].table}`);
  const wrong = invalidTime(db);
  if (wrong !== null) throw new LedgerError('unsound', `no moment or day in ${wrong}`);
  const found = db.pragma('integrity_check(1)', { simple: true });
  if (found !== 'ok') throw new LedgerError('unsound', String(found));
}

/** Brings it up to this program, and lets its feed go on where the ledger stands. */
function goOn(path: string, now: Date, place: FeedPlace): void {
  const db = openBook(path, now, true);
  try {
    const feed = feedLog(db);
    db.transaction(() => {
      if (!isFed(db)) feed.beginBehind(place);
    }).immediate();
  } finally {
    closeBook(db);
  }
}
