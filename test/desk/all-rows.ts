import Database from 'better-sqlite3';

/** Kept up by triggers from other rows, so that they need no trail of their own. */
const DERIVED = /_(sum|lookup)$/;

type Rows = Map<string, Record<string, unknown>>;
/** Every row of every table that triggers do not keep up, under a name that stays while the row changes. */
export function allRows(path: string): Map<string, Rows> {
  const db = new Database(path, { readonly: true });
  const tables = db
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .pluck()
    .all()
    .filter((name) => !DERIVED.test(name));
  const found = tables.map((table): [string, Rows] => {
    const keys = db
      .prepare<[], string>(`SELECT name FROM pragma_table_info('${table}') WHERE pk > 0 ORDER BY pk`)
      .pluck()
      .all();
    const rows = db.prepare<[], Record<string, unknown>>(`SELECT * FROM ${table}`).all();
    return [table, new Map(rows.map((row) => [keys.map((key) => String(row[key])).join('/'), row]))];
  });
  db.close();
  return new Map(found);
}
