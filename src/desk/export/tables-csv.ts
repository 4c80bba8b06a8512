/** The book as tables for a spreadsheet: three that can be imported again, and every table as stored. */
import { text as english } from '../../words/compiled/desk/export.ts';
import type { Language } from '../../words/languages.ts';
import { inLanguage } from '../../words/of-desk.ts';
import { csvLine } from '../../core/values/csv.ts';
import { eachRow } from '../../book/file/each-row.ts';
import type { Db } from '../../book/file/db.ts';
import { SPECIES } from '../supplied/resources.ts';
import { rowsOfTable, tablesOf, type CellValue } from '../../book/file/tables.ts';
import { namesIn } from '../names/names.ts';
import { codesFile } from './codes-csv.ts';
import { describeTables } from './describe.ts';
import type { ZipFile } from './zip.ts';

/**
 * The tables whose headings the import recognises. A weight has its unit, as typed. The unary plus makes SQLite
 * scan weights in order, instead of collecting those without a batch and sorting a million. Parts stated as none
 * follow the weights, as 0.
 */
const READABLE: Readonly<Record<string, { head: readonly (keyof typeof english.heading)[]; sql: string; also?: string }>> = {
  'hunters.csv': {
    head: ['name', 'phone', 'email', 'address', 'license', 'neverPooled'],
    sql: `SELECT name, phone, email, address, licence, iif(refuses_pooling, 'yes', 'no') FROM hunter
      WHERE details_removed_at IS NULL ORDER BY id`,
  },
  'animals.csv': {
    head: ['ourTicket', 'oldNumber', 'dateReceived', 'species', 'hunter', 'phone', 'email', 'address', 'license', 'sex', 'age', 'broughtAs', 'origin', 'tag', 'killDate', 'killArea', 'condition', 'shotDamage', 'pickedUpOn', 'pickedUpBy'],
    sql: `SELECT a.ticket, a.old_number, a.received_on, a.species, h.name, h.phone, h.email, h.address, a.licence, a.sex, a.age, a.brought, a.origin, a.tag,
        a.kill_date, a.kill_area, a.condition, a.damage, r.released_on, r.given_to
      FROM animal a JOIN hunter h ON h.id = a.hunter_id LEFT JOIN release_now r ON r.animal_id = a.id ORDER BY a.season, a.number`,
  },
  'weighings.csv': {
    head: ['ticket', 'part', 'weight', 'tare', 'product', 'count', 'note'],
    sql: `SELECT a.ticket, w.stage || '/' || w.part, ${asTyped('')}, ${asTyped('tare_')}, w.product, w.count, w.note
      FROM weighing_now w CROSS JOIN animal a ON a.id = w.animal_id WHERE +w.batch_id IS NULL AND w.stage <> 'primal' ORDER BY w.id`,
    also: `SELECT a.ticket, 'cut/' || n.part, '0', NULL, NULL, NULL, '' FROM part_none_now n JOIN animal a ON a.id = n.animal_id
      WHERE NOT EXISTS (SELECT 1 FROM weighing_now w WHERE w.animal_id = n.animal_id AND w.part = n.part) ORDER BY n.id`,
  },
}; // prettier-ignore

/** The complete export: the importable tables, in words of the language; every table as stored; what its codes mean; and a description. */
export function* tableFiles(db: Db, language: Language): Generator<ZipFile> {
  const text = inLanguage(english, language);
  yield { name: text.readMe, text: describeTables(db, language) };
  const rowsOf = (sql: string) => eachRow(db.prepare<[], CellValue[]>(sql).raw());
  for (const [name, { head, sql, also }] of Object.entries(READABLE)) {
    const rows = also === undefined ? rowsOf(sql) : inTurn(rowsOf(sql), rowsOf(also));
    const headings = head.map((code) => text.heading[code]);
    yield { name, text: csvText(headings, inWords(rows, head, language)) };
  }
  yield codesFile(language);
  for (const table of tablesOf(db))
    yield { name: `tables/${table.name}.csv`, text: csvText(table.columns, rowsOfTable(db, table)) };
}

/** Columns whose cells are codes, and the words for them. */
const CODED: Readonly<Partial<Record<keyof typeof english.heading, keyof typeof english.words>>> = {
  sex: 'sex',
  age: 'age',
  broughtAs: 'brought',
  origin: 'origin',
  neverPooled: 'pooling',
  part: 'what',
};

/** The same rows with words of the language for codes and for the names of built-in things. */
function* inWords(
  rows: Iterable<CellValue[]>,
  head: readonly (keyof typeof english.heading)[],
  language: Language,
): Generator<CellValue[]> {
  const { words } = inLanguage(english, language);
  const names = namesIn(language);
  // In English a species is its code: where another language has a word of its own, that is read as well.
  const species = new Map(
    SPECIES.map(({ code, name }) => {
      const own = names.said('species.*.name', name, code);
      return [code, own === name ? code : own];
    }),
  );
  const said = head.map((heading): ((cell: string) => string) => {
    const group = CODED[heading];
    if (group) return (cell) => (words[group] as Readonly<Record<string, string>>)[cell] ?? cell;
    if (heading === 'species') return (cell) => species.get(cell) ?? cell;
    return heading === 'product' ? (cell) => names.said('product.*', cell) : (cell) => cell;
  });
  for (const row of rows)
    yield row.map((cell, at) => (typeof cell === 'string' ? (said[at]?.(cell) ?? cell) : cell));
}

function* inTurn<T>(...each: readonly Iterable<T>[]): Generator<T> {
  for (const some of each) yield* some;
}

/** A byte order mark tells a spreadsheet that the encoding is UTF-8. */
export function* csvText(head: readonly string[], rows: Iterable<CellValue[]>): Generator<string> {
  yield `\uFEFF${csvLine(head)}`;
  for (const row of rows) yield csvLine(row);
}

/** SQL for a weight as typed, with its unit appended if it was not typed. */
function asTyped(of: '' | 'tare_'): string {
  const typed = `w.${of}typed`;
  return `iif(${typed} GLOB '*[a-zA-Z#]*', ${typed}, ${typed} || ' ' || w.${of}unit)`;
}
