import { FEED_TABLE } from '../feed/feed-schema.ts';
import { eachRow } from './each-row.ts';
import type { Db } from './db.ts';

export interface Table {
  name: string;
  columns: string[];
}

export type CellValue = string | number | null;

/** Every table of a book with its columns, in the order of their names; not the log of a feed, which is no record. */
export function tablesOf(db: Db): Table[] {
  const names = db
    .prepare<[], string>(
      "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name",
    )
    .pluck()
    .all()
    .filter((name) => name !== FEED_TABLE);
  return names.map((name) => ({
    name,
    columns: db
      .prepare<[string], string>('SELECT name FROM pragma_table_info(?) ORDER BY cid')
      .pluck()
      .all(name),
  }));
}

/** The rows of a table as an iterator, ordered by primary key. */
export function rowsOfTable(
  db: Db,
  { name, columns }: Table,
  where = '',
  ...bound: CellValue[]
): Iterable<CellValue[]> {
  const key = db
    .prepare<[string], string>('SELECT name FROM pragma_table_info(?) WHERE pk > 0 ORDER BY pk')
    .pluck()
    .all(name);
  const order = key.length > 0 ? key.map(quoted).join(', ') : 'rowid';
  const rows = db
    .prepare<CellValue[], CellValue[]>(
      `SELECT ${columns.map(quoted).join(', ')} FROM ${quoted(name)} ${where} ORDER BY ${order}`,
    )
    .raw();
  return eachRow(rows, ...bound);
}

export function quoted(name: string): string {
  return `"${name.replaceAll('"', '""')}"`;
}
