/**
 * The log of changes that a feed reads: a table and three triggers for each kept table. They are in a book only while it is fed,
 * so that a shop without a ledger pays nothing. Books carry these texts word for word: never edit a released one.
 */
import type Database from 'better-sqlite3';

type Db = Database.Database;

/** The table of the log. A row points at a row that changed; it holds none of its contents, so nothing removed survives in it. */
export const FEED_TABLE = 'feed_change';

/** Begins the name of each trigger of the feed. */
const TRIGGER = 'feed_of_';

/** Tables that no feed carries: the log itself, what is computed anew from others, and PINs, whose few digits could be tried out. */
export const NOT_FED: readonly string[] = [
  FEED_TABLE,
  'hunter_digits_lookup',
  'hunter_word_lookup',
  'season_taught',
  'staff_pin',
  'word_lookup',
];

export interface FedTable {
  name: string;
  /** Columns of its primary key, in the order of the key. */
  key: readonly string[];
}

/** The tables of a book that a feed carries, by name. */
export function fedTables(db: Db): FedTable[] {
  const keyOf = db
    .prepare<[string], string>('SELECT name FROM pragma_table_info(?) WHERE pk > 0 ORDER BY pk')
    .pluck();
  return db
    .prepare<[], string>(
      "SELECT name FROM main.sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name",
    )
    .pluck()
    .all()
    .filter((name) => !NOT_FED.includes(name))
    .map((name) => ({ name, key: keyOf.all(name) }));
}

/**
 * SQL of a row's key as the log keeps it: the value of a single column, or a JSON array of several.
 * @param row the alias of the row, e.g. `NEW`
 * @example keyOf({ name: 'animal', key: ['id'] }, 'NEW') // 'NEW.id'
 */
export function keyOf({ key }: FedTable, row: string): string {
  const columns = key.map((column) => `${row}.${column}`);
  return columns.length === 1 ? columns.join() : `json_array(${columns.join(', ')})`;
}

/** Whether changes of a book are logged. */
export function isFed(db: Db): boolean {
  return (
    db.prepare("SELECT 1 FROM main.sqlite_schema WHERE name = ? AND type = 'table'").get(FEED_TABLE) !==
    undefined
  );
}

export const isFeedTrigger = (name: string): boolean => name.startsWith(TRIGGER);

/**
 * A random `mark` tells two continuations of one book apart that both reached a `seq`. It has 53 bits, which a number of
 * JavaScript holds exactly. `at` is the second of the change.
 */
const TABLE = `CREATE TABLE ${FEED_TABLE} (
  seq INTEGER PRIMARY KEY,
  tbl TEXT NOT NULL,
  key ANY NOT NULL,
  mark INTEGER NOT NULL,
  at INTEGER NOT NULL
) STRICT`;

/** The columns and values of a new row of the log, for the row `key` of a table. */
export const logged = (table: string, key: string): string =>
  `INSERT INTO ${FEED_TABLE} (tbl, key, mark, at) SELECT '${table}', ${key}, random() >> 11, unixepoch()`;

function triggersOf(table: FedTable): string[] {
  const { name } = table;
  const now = keyOf(table, 'NEW');
  const before = keyOf(table, 'OLD');
  const head = (verb: string) =>
    `CREATE TRIGGER ${TRIGGER}${name}_${verb} AFTER ${verb.toUpperCase()} ON ${name} BEGIN`;
  return [
    `${head('insert')} ${logged(name, now)}; END`,
    // A changed key leaves its old place empty.
    `${head('update')} ${logged(name, now)}; ${logged(name, before)} WHERE ${before} IS NOT ${now}; END`,
    `${head('delete')} ${logged(name, before)}; END`,
  ];
}

/** Adds the log to a book, empty, for the tables that it has. */
export function addFeed(db: Db): void {
  db.exec(TABLE);
  addFeedTriggers(db);
}

/** Only the triggers: a migration takes them out, since it may make a table anew, and puts them back. */
export function addFeedTriggers(db: Db): void {
  for (const sql of fedTables(db).flatMap(triggersOf)) db.exec(sql);
}

export function removeFeedTriggers(db: Db): void {
  const names = db
    .prepare<[], string>("SELECT name FROM main.sqlite_schema WHERE type = 'trigger'")
    .pluck()
    .all();
  for (const name of names.filter(isFeedTrigger)) db.exec(`DROP TRIGGER ${name}`);
}

/** Takes the log out of a book, with all that was not sent. */
export function removeFeed(db: Db): void {
  removeFeedTriggers(db);
  db.exec(`DROP TABLE IF EXISTS ${FEED_TABLE}`);
}

/** Logs every row of every kept table, so that all of them are sent once more. */
export function logEverything(db: Db): void {
  for (const table of fedTables(db)) db.exec(`${logged(table.name, keyOf(table, 'r'))} FROM ${table.name} r`);
}
