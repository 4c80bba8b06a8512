import Database from 'better-sqlite3';

/** Kept up by triggers from other rows, so that they need no trail of their own; the log of a fed book is in no other. */
const DERIVED = /_(sum|lookup)$|^feed_change$/;

type Rows = Map<string, Record<string, unknown>>;

/** The tables and their keys, which are the same in every book of this version. */
let keysOf: [table: string, keys: string[]][] | undefined;

function readKeys(db: Database.Database): [string, string[]][] {
  return db
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .pluck()
    .all()
    .filter((name) => !DERIVED.test(name))
    .map((name) => [
      name,
      db
        .prepare<[], string>(`SELECT name FROM pragma_table_info('${name}') WHERE pk > 0 ORDER BY pk`)
        .pluck()
        .all(),
    ]);
}

/** Every row of every table that triggers do not keep up, under a name that stays while the row changes. */
export function allRows(path: string): Map<string, Rows> {
  const db = new Database(path, { readonly: true });
  const found = (keysOf ??= readKeys(db)).map(([table, keys]): [string, Rows] => {
    const rows = db.prepare<[], Record<string, unknown>>(`SELECT * FROM ${table}`).all();
    return [table, new Map(rows.map((row) => [keys.map((key) => String(row[key])).join('/'), row]))];
  });
  db.close();
  return new Map(found);
}
