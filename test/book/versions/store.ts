/**
 * Stores a book of a version that was released, full of data, as SQL text that no later program has a hand in:
 * `node test/book/versions/store.ts [VERSION]` writes `version-N.sql`, of the newest version if none is named. Do it
 * once before each release, and never again for a version that was released.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { APPLICATION_ID, BOOK_VERSION, MIGRATIONS } from '../../../src/book/migrations/index.ts';
import { ROWS } from './rows.ts';

const version = Number(process.argv[2] ?? BOOK_VERSION);
const db = new Database(':memory:');
// As books get there: written by the first program, then brought up step by step, with rows for what each step is new in.
MIGRATIONS.slice(0, version).forEach((step, i) => {
  db.exec(step);
  db.exec(ROWS[i + 1] ?? '');
});

const parts = db
  .prepare<[], { type: string; name: string; sql: string }>(
    'SELECT type, name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY rowid',
  )
  .all();
const tables = parts.filter(({ type, name }) => type === 'table' && !name.startsWith('sqlite_'));
const rest = parts.filter(({ type }) => type !== 'table');
const literal = db.prepare<[unknown], string>('SELECT quote(?)').pluck();
const rows = tables.flatMap(({ name }) =>
  db
    .prepare<[], unknown[]>(`SELECT * FROM "${name}"`)
    .raw()
    .all()
    .map((row) => `INSERT INTO "${name}" VALUES (${row.map((value) => literal.get(value)).join(', ')});`),
);
// The rows come before the triggers, or those would write their own a second time.
const sql = [
  `-- A book of version ${version}, invented. Never edit: it stands for books that are in use.`,
  `PRAGMA application_id = ${APPLICATION_ID};`,
  // A row may point to a table that stands further down.
  'PRAGMA foreign_keys = OFF;',
  ...tables.map((one) => `${one.sql};`),
  ...rows,
  ...rest.map((one) => `${one.sql};`),
  `PRAGMA user_version = ${version};`,
];
writeFileSync(join(import.meta.dirname, `version-${version}.sql`), `${sql.join('\n')}\n`);
