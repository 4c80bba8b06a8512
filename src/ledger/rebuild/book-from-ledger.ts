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
import type { Server } from '../server/server.ts';
import type { BookValue } from '../feed/encode.ts';
import { ledgerTables, type LedgerTable } from '../tables/ledger-tables.ts';
import { rowsOf } from './ledger-rows.ts';

/** A book that a ledger has, for the list to choose from. */
export interface LedgerBook {
  shop: number;
  book: string;
  branch: number;
  name: string;
  /** UTC moment of the last batch; null before the first. */
  sentAt: string | null;
  /** False while a large backlog was on its way: part of a bill may be missing. */
  whole: boolean;
  /** Whether it has names and addresses of customers. */
  personal: boolean;
  superseded: boolean;
}

/** The books that this role may see, the newest branches first. */
export async function booksIn(server: Server): Promise<LedgerBook[]> {
  const rows = await server.rows(`
    SELECT shop, book, branch, name, to_char(sent_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"'), whole, personal,
      superseded_by IS NOT NULL
    FROM ledger.shop ORDER BY superseded_by IS NOT NULL, name, branch DESC`);
  return rows.map(([shop, book, branch, name, sentAt, whole, personal, superseded]) => ({
    shop: Number(shop),
    book: String(book),
    branch: Number(branch),
    name: String(name),
    sentAt: sentAt === null ? null : String(sentAt),
    whole: whole === true,
    personal: personal === true,
    superseded: superseded === true,
  }));
}

/**
 * Makes the book of a branch at `path`, where nothing is yet. It reads one state of the ledger, whatever is written meanwhile.
 * @throws LedgerError `no-book`, `newer` when a newer program wrote it, `unsound` when its rows make no sound book; then
 *   nothing is left at `path`
 * @throws BookError when it cannot be written there
 */
export async function bookFromLedger(
  server: Server,
  shop: number,
  path: string,
  now: Date,
): Promise<FeedPlace> {
  await server.script('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
  try {
    const [row] = await server.rows('SELECT seq, mark, book_version FROM ledger.shop WHERE shop = $1', [
      shop,
    ]);
    if (!row || Number(row[0]) === 0) throw new LedgerError('no-book');
    const [place, version] = [{ seq: Number(row[0]), mark: Number(row[1]) }, Number(row[2])];
    if (version > BOOK_VERSION) throw new LedgerError('newer');
    await fillBook(server, shop, path, version);
    goOn(path, now, place);
    return place;
  } catch (error) {
    for (const ending of ['', '-wal', '-shm', '-journal']) rmSync(path + ending, { force: true });
    throw error;
  } finally {
    await server.script('ROLLBACK');
  }
}

async function fillBook(server: Server, shop: number, path: string, version: number): Promise<void> {
  const db = new Database(path);
  try {
    db.pragma('journal_mode = OFF');
    db.pragma('synchronous = OFF');
    db.pragma('foreign_keys = OFF');
    for (const step of MIGRATIONS.slice(0, version)) db.exec(step);
    const putBack = setTriggersAside(db, () => true);
    const tables = await serverTables(server);
    for (const table of ledgerTables(db)) await fillTable(db, server, shop, table, columnsOf(tables, table));
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

async function fillTable(
  db: Db,
  server: Server,
  shop: number,
  table: LedgerTable,
  known: ReadonlySet<string> | undefined,
): Promise<void> {
  const names = table.columns.map(({ name }) => `"${name}"`);
  const insert = db.prepare<BookValue[]>(
    `INSERT INTO "${table.name}" (${names.join()}) VALUES (${names.map(() => '?').join()})`,
  );
  db.exec('BEGIN');
  db.exec(`DELETE FROM "${table.name}"`); // a migration may have put rows into it
  for await (const row of rowsOf(server, shop, table, known)) insert.run(...row);
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
