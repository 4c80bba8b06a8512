/** Whether a book holds what was acknowledged, looked up row by row past all of our own code. */
import { createHash } from 'node:crypto';
import Database from 'better-sqlite3';
import type { Entry } from './said.ts';

export interface Verdict {
  /** Acknowledged entries that are not in the book as they were typed. */
  lost: Entry[];
  /** Whether `integrity_check` and `foreign_key_check` are content. */
  whole: boolean;
}

const QUESTIONS = {
  animal:
    'SELECT 1 FROM animal a JOIN hunter h ON h.id = a.hunter_id WHERE a.id = ? AND a.ticket = ? AND h.name = ?',
  payment: 'SELECT 1 FROM payment WHERE id = ? AND amount_minor = ?',
  void: 'SELECT 1 FROM weighing_void WHERE weighing_id = ?',
  weighing: 'SELECT 1 FROM weighing WHERE id = ? AND typed = ?',
};

export function verify(bookPath: string, entries: readonly Entry[]): Verdict {
  const db = new Database(bookPath, { readonly: true });
  const lost = entries.filter((entry) => !db.prepare(QUESTIONS[entry.kind]).get(...valuesOf(entry)));
  const whole =
    db.pragma('integrity_check', { simple: true }) === 'ok' &&
    (db.pragma('foreign_key_check') as unknown[]).length === 0;
  db.close();
  return { lost, whole };
}

/** Every row of every table of ours as one fingerprint; what SQLite notes for its own planning is no record. */
export function digest(bookPath: string): string {
  const db = new Database(bookPath, { readonly: true });
  const tables = db
    .prepare<[], string>(
      "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name",
    )
    .pluck()
    .all();
  const hash = createHash('sha256');
  for (const table of tables) {
    const rows = db
      .prepare(`SELECT * FROM "${table}"`)
      .raw()
      .all()
      .map((row) => JSON.stringify(row));
    hash.update(`${table} ${rows.toSorted().join('\n')}`);
  }
  db.close();
  return hash.digest('hex');
}

function valuesOf(entry: Entry): (string | number)[] {
  switch (entry.kind) {
    case 'animal':
      return [entry.id, entry.ticket, entry.hunter];
    case 'payment':
      return [entry.id, entry.minor];
    case 'void':
      return [entry.id];
    case 'weighing':
      return [entry.id, entry.typed];
  }
}
