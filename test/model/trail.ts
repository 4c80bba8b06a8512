/** Rows that are written once stay as they were written. */
import type Database from 'better-sqlite3';

/** Without these it would be no trail. */
const REQUIRED = [
  'audit',
  'bill',
  'bill_void',
  'fat_movement',
  'payment',
  'payment_void',
  'weighing',
  'weighing_void',
  'release',
];

export class Trail {
  readonly #db: Database.Database;
  readonly #tables: string[];
  #seen = new Map<string, Set<string>>();

  constructor(db: Database.Database) {
    this.#db = db;
    const guarded = db
      .prepare<[], string>("SELECT tbl_name FROM sqlite_schema WHERE type = 'trigger' AND name LIKE '%_no_delete'")
      .pluck()
      .all();
    this.#tables = [...new Set([...REQUIRED, ...guarded])].sort();
    this.lookAnew();
  }

  /** After something that may take rows away: a restored backup, a file that was undone, details that were removed. */
  lookAnew(): void {
    this.#seen = new Map(this.#tables.map((table) => [table, this.#rows(table)]));
  }

  /** What became of the rows seen before; new ones are taken into account from now on. */
  changed(): string[] {
    return this.#tables.flatMap((table) => {
      const now = this.#rows(table);
      const lost = [...(this.#seen.get(table) ?? [])].find((row) => !now.has(row));
      this.#seen.set(table, now);
      return lost === undefined ? [] : [`a row of ${table} that was written once is no more: ${lost}`];
    });
  }

  #rows(table: string): Set<string> {
    const all = this.#db.prepare<[], unknown[]>(`SELECT * FROM ${table}`).raw().all();
    return new Set(all.map((row) => JSON.stringify(row)));
  }
} // prettier-ignore
