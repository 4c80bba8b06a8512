/**
 * The book of a shop that has done this for twenty years: `seasons` × 5,000 animals × about 12 weighings. The demo's two
 * finished seasons are written over and over, each copy with its own numbers, days and weights, so that every kind of
 * record lies in it in a shop's proportions. Made once for each schema and kept under `out/`, which is not in git.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Database } from 'better-sqlite3';
import { openRecordBook } from '../../src/book/book.ts';
import { MIGRATIONS } from '../../src/book/migrations/index.ts';
import { DEMO_NOW } from '../../src/demo/season.ts';
import { createSession } from '../../src/desk/session/session.ts';
import { summariseNext } from '../../src/desk/session/season-summaries.ts';
import { SPECIES } from '../../src/desk/supplied/resources.ts';
import { summaryKey } from '../../src/desk/learning/season-summary.ts';
import { demoAt } from '../demo-copy.ts';

export const ANIMALS_A_SEASON = 5000;
const WEIGHINGS_AN_ANIMAL = 12;
const LAST_SEASON = 2026;
/** Changes when the book or its summaries are made in another way, so that one made before is not taken for it. */
const MADE = `with summaries by ${summaryKey(SPECIES)}`;
/** Seasons of the demo whose animals are all handed over. */
const PATTERN = [2024, 2025];
const GRAMS =
  "CASE unit WHEN 'lb' THEN 453.59237 WHEN 'oz' THEN 28.349523125 WHEN 'kg' THEN 1000.0 ELSE 1.0 END";

const folder = fileURLToPath(new URL('../../out/bench/', import.meta.url));

/** Path of the book with so many seasons, the last of them 2026; makes it when it is not there yet. */
export async function largeBook(seasons: number): Promise<string> {
  const made = createHash('sha256')
    .update(`${MADE} ${MIGRATIONS.join('')}`)
    .digest('hex')
    .slice(0, 12);
  const path = join(folder, `${seasons}-seasons-${made}.gambrel`);
  if (existsSync(path)) return path;
  mkdirSync(folder, { recursive: true });
  for (const old of readdirSync(folder).filter((name) => name.startsWith(`${seasons}-seasons-`)))
    rmSync(join(folder, old));
  const part = `${path}.part`;
  await demoAt(part);
  const book = openRecordBook(part, DEMO_NOW, true);
  fill(book.db, seasons);
  book.db.pragma('optimize');
  book.close();
  summariseAll(part);
  renameSync(part, path);
  return path;
}

/** In a shop of twenty years upkeep has long summarised the seasons that are over. */
function summariseAll(path: string): void {
  const book = openRecordBook(path, DEMO_NOW, true);
  const session = createSession({
    book,
    demo: false,
    clock: () => DEMO_NOW,
    host: { openDemo: noOther, leaveDemo: noOther },
  });
  while (summariseNext(session));
  book.close();
}

function noOther(): never {
  throw new Error('the large book opens no other');
}

function fill(db: Database, seasons: number): void {
  const triggers = db.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").all() as {
    name: string;
    sql: string;
  }[];
  const pattern = patternOf(db);
  const copies = Math.round(ANIMALS_A_SEASON / pattern.animals);
  db.pragma('foreign_keys = OFF');
  db.exec('BEGIN');
  // Sums and look-ups are filled once at the end instead of row by row.
  for (const { name } of triggers) db.exec(`DROP TRIGGER ${name}`);
  let copy = 0;
  for (let season = LAST_SEASON - seasons + 1; season <= LAST_SEASON; season++)
    for (let n = 0; n < copies; n++) copyPattern(db, pattern, season, ++copy);
  emptyLots(db);
  weighMore(db);
  fillFromViews(db);
  for (const { sql } of triggers) db.exec(sql);
  db.exec('COMMIT');
  db.pragma('foreign_keys = ON');
  const broken = db.pragma('foreign_key_check') as unknown[];
  if (broken.length > 0) throw new Error(`${broken.length} rows of the large book lead nowhere`);
}

interface Pattern {
  animals: number;
  /** Rows up to these ids are of the pattern; a copy adds a multiple of the step to every id. */
  upTo: Record<string, number>;
}

const ID_STEP = 100_000;

function patternOf(db: Database): Pattern {
  const one = (sql: string): number => Number(db.prepare(sql).pluck().get() ?? 0);
  const last = `season <= ${PATTERN.at(-1)}`;
  const animal = one(`SELECT max(id) FROM animal WHERE ${last}`);
  if (one(`SELECT count(*) FROM animal WHERE id <= ${animal} AND stage <> 'released'`) > 0)
    throw new Error('An animal of the pattern is not handed over');
  const weighing = one(`SELECT max(id) FROM weighing WHERE animal_id <= ${animal}`);
  return {
    animals: one(`SELECT count(*) FROM animal WHERE ${last}`),
    upTo: {
      hunter: one(`SELECT max(hunter_id) FROM animal WHERE ${last}`),
      animal,
      batch: one(`SELECT max(id) FROM batch WHERE ${last}`),
      fat_lot: one(`SELECT max(id) FROM fat_lot WHERE received_on < '${PATTERN.at(-1)}-12-31'`),
      quote: one('SELECT max(id) FROM quote'),
      bill: one(`SELECT max(id) FROM bill WHERE animal_id <= ${animal}`),
      hold: one(`SELECT max(id) FROM hold WHERE animal_id <= ${animal}`),
      payment: one(`SELECT max(id) FROM payment WHERE animal_id <= ${animal}`),
      weighing,
    },
  };
}

/** Which column of a table names a record that is copied too. */
const REFERS: Readonly<Record<string, keyof Pattern['upTo'] & string>> = {
  hunter_id: 'hunter', animal_id: 'animal', batch_id: 'batch', fat_lot_id: 'fat_lot', lot_id: 'fat_lot', quote_id: 'quote',
  bill_id: 'bill', hold_id: 'hold', payment_id: 'payment', weighing_id: 'weighing', corrects: 'weighing',
}; // prettier-ignore

/** In the order in which one needs the other, each with what picks the rows of the pattern. */
const COPIED: Readonly<Record<string, string>> = {
  hunter: 'id <= @hunter', animal: 'id <= @animal', animal_part: 'animal_id <= @animal', hold: 'id <= @hold', hold_end: 'hold_id <= @hold', hold_result: 'hold_id <= @hold',
  instruction: 'animal_id <= @animal', cooler_stay: 'animal_id <= @animal', fat_lot: 'id <= @fat_lot AND coalesce(animal_id, 0) <= @animal',
  batch: 'id <= @batch', batch_animal: 'batch_id <= @batch', grind_pass: 'batch_id <= @batch', fat_test: 'batch_id <= @batch',
  weighing: 'id <= @weighing AND coalesce(animal_id, 0) <= @animal AND coalesce(batch_id, 0) <= @batch AND coalesce(fat_lot_id, 0) <= @fat_lot',
  weighing_void: 'weighing_id IN (SELECT id FROM weighing WHERE id <= @weighing AND coalesce(animal_id, 0) <= @animal AND coalesce(batch_id, 0) <= @batch AND coalesce(fat_lot_id, 0) <= @fat_lot)',
  fat_movement: 'lot_id <= @fat_lot AND (weighing_id IS NULL OR weighing_id <= @weighing)',
  quote: 'id <= @quote', bill: 'id <= @bill AND animal_id <= @animal',
  bill_line: 'bill_id <= @bill', bill_void: 'bill_id <= @bill', payment: 'id <= @payment AND animal_id <= @animal', payment_void: 'payment_id <= @payment',
  call_note: 'animal_id <= @animal', release: 'animal_id <= @animal', disposal: 'animal_id <= @animal',
}; // prettier-ignore

function copyPattern(db: Database, { upTo, animals }: Pattern, season: number, copy: number): void {
  const shift = copy * ID_STEP;
  for (const [table, where] of Object.entries(COPIED)) {
    const columns = (
      db.prepare(`SELECT name FROM pragma_table_info('${table}')`).pluck().all() as string[]
    ).map((name) => [name, copied(table, name, season, copy, animals)] as const);
    // Without a number of its own a row gets the next.
    const kept = columns.filter(([name]) => name !== 'id' || table in upTo);
    const sql = `INSERT INTO ${table} (${kept.map(([name]) => name).join(', ')})
      SELECT ${kept.map(([, value]) => value).join(', ')} FROM ${table} WHERE ${where}`;
    const bound = Object.fromEntries(Object.entries(upTo).filter(([name]) => where.includes(`@${name}`)));
    db.prepare(sql.replaceAll('@shift', String(shift))).run(bound);
  }
  db.prepare(TAKEN.replaceAll('@shift', String(shift))).run({ animal: upTo.animal, quote: upTo.quote });
}

/** The pattern's seasons have no quotes of their own: those of the demo's last season go to animals of their species. */
const TAKEN = `INSERT INTO quote_taken (quote_id, animal_id, at, by)
  SELECT q.id + @shift, a.id + @shift, a.created_at, 'LB'
  FROM (SELECT id, species, row_number() OVER (PARTITION BY species ORDER BY id) AS n FROM quote WHERE id <= @quote) q
  JOIN (SELECT id, species, created_at, row_number() OVER (PARTITION BY species ORDER BY id) AS n FROM animal WHERE id <= @animal) a
    ON a.species = q.species AND a.n = q.n`;

/** How a column of a copy comes of the pattern: other ids, other years, other numbers, weights a little different. */
function copied(table: string, name: string, season: number, copy: number, animals: number): string {
  const factor = (0.9 + 0.2 * (((copy * 7919) % 997) / 997)).toFixed(4);
  const years = (date: string): string => `printf('%+d years', ${season} - ${yearOf(date)})`;
  const day = (column: string): string => `date(${column}, ${years(column)})`;
  const moment = (column: string): string => `strftime('%Y-%m-%dT%H:%M:%fZ', ${column}, ${years(column)})`;
  if (name === 'id') return 'id + @shift';
  if (table === 'quote' && name === 'hunter_id') return 'NULL';
  const refers = REFERS[name];
  if (refers) return `${name} + @shift`;
  if (name === 'season') return String(season);
  if (name === 'number' && table === 'animal') return `id + ${(copy - 1) * animals + 10_000}`;
  if (name === 'ticket') return `printf('%02d-%d', ${season % 100}, id + ${(copy - 1) * animals + 10_000})`;
  if (name === 'number') return `id + ${copy * ID_STEP}`;
  if (name === 'name' && (table === 'batch' || table === 'quote'))
    return `printf('${table === 'batch' ? 'G' : 'Q'}%02d-%d', ${season % 100}, id + ${copy * ID_STEP})`;
  if (name === 'code' && table === 'fat_lot') return `printf('%s-%d', code, ${copy})`;
  if (name === 'name' && table === 'hunter') return `name || ' ' || ${copy}`;
  if (name === 'name_key' && table === 'hunter') return `name_key || ' ' || ${copy}`;
  if (name === 'phone_key')
    return `printf('%010d', (CAST(phone_key AS INTEGER) + ${copy} * 7919) % 10000000000)`;
  if (name.endsWith('_on') || name === 'kill_date' || name === 'use_by' || name === 'valid_until')
    return day(name);
  if (name === 'at' || name === 'created_at') return moment(name);
  if (table === 'weighing' && name === 'digits') return `max(1, CAST(round(digits * ${factor}) AS INTEGER))`;
  if (table === 'weighing' && name === 'typed')
    return `printf('%.' || decimals || 'f', max(1, CAST(round(digits * ${factor}) AS INTEGER)) / pow(10, decimals))`;
  if (table === 'weighing' && name === 'grams')
    return `iif(tare_typed IS NULL, max(1, CAST(round(digits * ${factor}) AS INTEGER)) / pow(10, decimals) * ${GRAMS}, grams)`;
  return name;
}

/** Seasons of the pattern run on into January, which still belongs to the year before. */
function yearOf(date: string): string {
  return `CAST(strftime('%Y', ${date}, '-2 months') AS INTEGER)`;
}

/** A shop does not keep fat for years: what the copies have left is thrown out. */
function emptyLots(db: Database): void {
  db.exec(`INSERT INTO fat_movement (lot_id, kind, grams, note, at, by)
    SELECT m.lot_id, 'thrown out', -sum(m.grams), 'Season over', max(m.at), 'LB' FROM fat_movement m
    WHERE m.lot_id > ${ID_STEP} GROUP BY m.lot_id HAVING abs(sum(m.grams)) > 0.001`);
}

/** Primals on the scale, which change no sum, until there are twelve weighings to an animal. */
function weighMore(db: Database): void {
  const { animals, weighings } = db
    .prepare('SELECT (SELECT count(*) FROM animal) AS animals, (SELECT count(*) FROM weighing) AS weighings')
    .get() as { animals: number; weighings: number };
  const each = Math.max(0, Math.round(WEIGHINGS_AN_ANIMAL - weighings / animals));
  db.exec(`INSERT INTO weighing (animal_id, stage, part, primal, typed, digits, decimals, unit, grams, source, note, at, by)
    SELECT a.id, 'primal', 'primal', n.value, '5.00', 500, 2, 'lb', 2267.96185, 'typed', '', a.created_at, 'LB'
    FROM animal a, json_each('${JSON.stringify(['shoulder', 'saddle', 'haunch', 'neck', 'flank', 'shank'].slice(0, each))}') n
    WHERE a.id > ${ID_STEP}`);
}

/** Every table that is a view written down: `x` of `x_now`. Those that others rest on come first, as they were made. */
function fillFromViews(db: Database): void {
  const tables = db
    .prepare(
      `SELECT t.name FROM sqlite_schema t JOIN sqlite_schema v ON v.type = 'view' AND v.name = t.name || '_now'
       WHERE t.type = 'table' AND (t.name LIKE '%\\_sum' ESCAPE '\\' OR t.name LIKE '%\\_lookup' ESCAPE '\\') ORDER BY t.rowid`,
    )
    .pluck()
    .all() as string[];
  for (const table of tables) {
    db.exec(`DELETE FROM ${table}`);
    db.exec(`INSERT INTO ${table} SELECT * FROM ${table}_now`);
  }
}
