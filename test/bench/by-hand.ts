/** What saving a weight is held against: its rows written by a careful hand, without anything that is checked beforehand. */
import { copyFileSync } from 'node:fs';
import Database from 'better-sqlite3';

const AT = '2026-11-14T12:00:00.000Z';
const HANGING_GRAMS = 181_436.948;
const GRAMS = 8436.8;

/**
 * A copy of the book with all its indexes, checks and references and the same durability, but without triggers.
 * @param animals so many of the newest animals are weighed by turns
 */
export function writtenByHand(book: string, animals: number) {
  const path = `${book}.bare`;
  copyFileSync(book, path);
  const db = new Database(path);
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.pragma('foreign_keys = ON');
  const triggers = db
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'trigger'")
    .pluck()
    .all();
  for (const name of triggers) db.exec(`DROP TRIGGER ${name}`);
  const ids = db
    .prepare<[number], number>('SELECT id FROM animal ORDER BY id DESC LIMIT ?')
    .pluck()
    .all(animals);
  const insert = db.prepare<[number | undefined]>(
    `INSERT INTO weighing (animal_id, stage, part, typed, digits, decimals, unit, grams, source, at, by)
     VALUES (?, 'cut', 'trim', '18.60', 1860, 2, 'lb', ${GRAMS}, 'typed', '${AT}', 'LB')`,
  );
  // The sums are at hand: only writing them counts.
  const sums = db.prepare<[number, number | undefined]>(
    `UPDATE animal_sum SET damaged = 0, cutter = 'LB', cut_at = '${AT}', received = NULL, hanging = ${HANGING_GRAMS}, whole_cuts = NULL,
       trim = ?, fat_saved = NULL, sinew = NULL, bone = NULL, damage = NULL, trim_ground = 0.0, own_fat_ground = 0.0, packed = NULL,
       base = ${HANGING_GRAMS}, take_home = NULL, finished = 0, share = NULL
     WHERE animal_id = ?`,
  );
  let turn = 0;
  const next = (): number | undefined => ids[turn++ % ids.length];
  const both = db.transaction(() => {
    const id = next();
    insert.run(id);
    sums.run(GRAMS * Math.ceil(turn / ids.length), id);
  });
  return {
    /** The weight alone, in a transaction of its own. */
    row: (): void => void insert.run(next()),
    /**
     * All that one more weight of a part writes: the weight, which is its own trail, and the sums of its animal. The change
     * log is memory alone while no ledger is fed.
     */
    rows: (): void => both.immediate(),
    close: (): void => void db.close(),
  };
}
