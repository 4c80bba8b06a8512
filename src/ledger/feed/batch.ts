/** A stretch of a book's log with the rows that it points at, as they are now. */
import type Database from 'better-sqlite3';
import { FEED_TABLE } from '../../book/feed/feed-schema.ts';
import { newestPlace, type FeedPlace } from '../../book/feed/feed.ts';
import type { Db } from '../../book/file/db.ts';
import type { LedgerTable } from '../tables/ledger-tables.ts';
import { exactJson, rowJson, unfitOf, type BookValue, type Unfit } from './encode.ts';
import { addPrivacy, sentColumns, sentRows, type Privacy } from './shown-columns.ts';

/** What happened to the rows of one table. Rows and keys are JSON arrays. */
export interface TableBatch {
  table: LedgerTable;
  rows: { key: string; json: string; exact: () => string }[];
  /** Keys of rows that are gone. */
  gone: string[];
  unfit: { key: string; why: Unfit; body: string }[];
}

export interface Batch {
  from: FeedPlace;
  to: FeedPlace;
  /** Whether it reaches to the end of the log: then the ledger has whole transactions of the book. */
  whole: boolean;
  tables: TableBatch[];
}

/** Bounds of one batch: about a third of a second on a slow server, and a few megabytes of memory. */
export interface BatchSize {
  changes: number;
  bytes: number;
}
export const USUAL_SIZE: BatchSize = { changes: 5000, bytes: 4_000_000 };

interface Change extends FeedPlace {
  tbl: string;
  key: string | number;
}

/** Reads batches on a connection of its own; a change that is logged while it reads is of a later batch. */
export function batchReader(db: Db, tables: readonly LedgerTable[], privacy: Privacy) {
  const learnNames = privacy.personal ? () => undefined : addPrivacy(db, privacy);
  const changesAfter = db.prepare<[number, number], Change>(
    `SELECT seq, mark, tbl, key FROM ${FEED_TABLE} WHERE seq > ? ORDER BY seq LIMIT ?`,
  );
  const byName = new Map(tables.map((table) => [table.name, { table, find: finder(db, table, privacy) }]));
  /** @returns null when nothing is left to send */
  return (from: FeedPlace, size: BatchSize = USUAL_SIZE): Batch | null =>
    db.transaction(() => {
      learnNames();
      const seen = new Set<string>();
      const found = new Map<string, TableBatch>();
      let bytes = 0;
      let to = from;
      for (const change of changesAfter.all(from.seq, size.changes)) {
        if (bytes > size.bytes) break;
        to = { seq: change.seq, mark: change.mark };
        const at = byName.get(change.tbl);
        const key = JSON.stringify(keyValues(change.key, at?.table));
        if (!at || seen.has(`${change.tbl} ${key}`)) continue;
        seen.add(`${change.tbl} ${key}`);
        const batch = found.get(change.tbl) ?? { table: at.table, rows: [], gone: [], unfit: [] };
        found.set(change.tbl, batch);
        bytes += put(batch, key, at.find(keyValues(change.key, at.table)));
      }
      if (to.seq === from.seq) return null;
      return { from, to, whole: to.seq === newestPlace(db).seq, tables: [...found.values()] };
    })();
}

/** @returns bytes that the row adds */
function put(batch: TableBatch, key: string, row: BookValue[] | undefined): number {
  if (!row) return batch.gone.push(key);
  const why = unfitOf(row, batch.table);
  const json = why === null ? rowJson(row) : exactJson(row);
  if (why === null) batch.rows.push({ key, json, exact: () => exactJson(row) });
  else batch.unfit.push({ key, why, body: json });
  return json.length;
}

function keyValues(key: string | number, table: LedgerTable | undefined): (string | number)[] {
  return table && table.key.length > 1 ? (JSON.parse(String(key)) as (string | number)[]) : [key];
}

function finder(db: Db, table: LedgerTable, privacy: Privacy) {
  const where = table.key.map((column) => `"${column}" = ?`).join(' AND ');
  let statement: Database.Statement<BookValue[], BookValue[]> | undefined;
  return (key: BookValue[]): BookValue[] | undefined => {
    statement ??= db
      .prepare<BookValue[], BookValue[]>(
        `SELECT ${sentColumns(table, privacy).join(', ')} FROM "${table.name}" WHERE ${where} AND ${sentRows(table.name)}`,
      )
      .raw();
    return statement.get(...key);
  };
}
