import { eachRow } from '../file/each-row.ts';
import type { Db } from '../file/db.ts';
import { guardTriggers, withoutTriggers, sumTriggers } from '../file/without-triggers.ts';

/** The records of one import: first and last id of each kind, null for none. */
export interface ImportedRange {
  hunter_first: number | null;
  hunter_last: number | null;
  animal_first: number | null;
  animal_last: number | null;
  weighing_first: number | null;
  weighing_last: number | null;
  part_none_first: number | null;
  part_none_last: number | null;
}

export interface ImportRow extends ImportedRange {
  id: number;
  kind: 'hunters' | 'animals' | 'weighings';
  file: string;
  sha256: string;
  rows: number;
  at: string;
  by: string;
  undone_at: string | null;
}

/** Why an import cannot be undone: the record, by name or ticket, with later entries. */
interface Since {
  what: 'hunter' | 'animal' | 'weighing' | 'part_none' | 'later ticket';
  name: string;
}

const KINDS = ['hunter', 'animal', 'weighing', 'part_none'] as const;
/** How a blocking record is named. */
const CALLED = {
  hunter: 'SELECT name FROM hunter WHERE id = ?',
  animal: 'SELECT ticket FROM animal WHERE id = ?',
  weighing: 'SELECT a.ticket FROM weighing w JOIN animal a ON a.id = w.animal_id WHERE w.id = ?',
  part_none: 'SELECT a.ticket FROM part_none n JOIN animal a ON a.id = n.animal_id WHERE n.id = ?',
} as const;
const SHOWN = 30;
/** SQL condition that an animal `a` came from a valid import. */
const CAME_BY_FILE = `EXISTS (SELECT 1 FROM brought_in b WHERE a.id BETWEEN b.animal_first AND b.animal_last
  AND NOT EXISTS (SELECT 1 FROM brought_in_undone u WHERE u.brought_in_id = b.id))`;

/** Imported files: the records of each, and how to undo it. */
export function importRecords(db: Db) {
  const columns = 'b.*, u.at AS undone_at';
  const from = 'FROM brought_in b LEFT JOIN brought_in_undone u ON u.brought_in_id = b.id';
  const insert = db.prepare(
    `INSERT INTO brought_in (kind, file, sha256, rows, hunter_first, hunter_last, animal_first, animal_last, weighing_first, weighing_last,
       part_none_first, part_none_last, at, by)
     VALUES (@kind, @file, @sha256, @rows, @hunter_first, @hunter_last, @animal_first, @animal_last, @weighing_first, @weighing_last,
       @part_none_first, @part_none_last, @at, @by)`,
  );
  const all = db.prepare<[], ImportRow>(`SELECT ${columns} ${from} ORDER BY b.id DESC LIMIT ${SHOWN}`);
  const get = db.prepare<[number], ImportRow>(`SELECT ${columns} ${from} WHERE b.id = ?`);
  const same = db.prepare<[string, string], ImportRow>(
    `SELECT ${columns} ${from} WHERE b.kind = ? AND b.sha256 = ? AND u.at IS NULL LIMIT 1`,
  );
  const undone = db.prepare('INSERT INTO brought_in_undone (brought_in_id, at, by) VALUES (?, ?, ?)');
  const finish = db.prepare("UPDATE animal SET stage = 'released', old_number = ? WHERE id = ?");
  const laterTicket = db
    .prepare<{ first: number; last: number }, string>(
      `SELECT a.ticket FROM animal a JOIN (SELECT season, max(number) AS most FROM animal WHERE id BETWEEN @first AND @last GROUP BY season) o
         ON o.season = a.season AND a.number > o.most WHERE a.id NOT BETWEEN @first AND @last ORDER BY a.id LIMIT 1`,
    )
    .pluck();
  // Without the file, trim that was already ground would have no source.
  const groundOf = db
    .prepare<{ first: number | null; last: number | null; crumb: number }, string>(
      `SELECT a.ticket FROM (SELECT animal_id, sum(grams) AS grams FROM weighing_now
           WHERE id BETWEEN @first AND @last AND stage = 'cut' AND part = 'trim' GROUP BY animal_id) f
         JOIN animal_sum s ON s.animal_id = f.animal_id JOIN animal a ON a.id = f.animal_id
       WHERE s.trim_ground > coalesce(s.trim, 0.0) - f.grams + @crumb ORDER BY a.id LIMIT 1`,
    )
    .pluck();
  // BETWEEN NULL AND NULL matches no row: an import without a kind deletes none of it.
  const deleteWeighings = db.prepare("DELETE FROM weighing WHERE id BETWEEN ? AND ? AND source = 'import'");
  const deleteNone = db.prepare('DELETE FROM part_none WHERE id BETWEEN ? AND ?');
  const deleteAnimals = ['animal_sum WHERE animal_id', 'release WHERE animal_id', 'animal WHERE id'].map(
    (rows) => db.prepare(`DELETE FROM ${rows} BETWEEN ? AND ?`),
  );
  const deleteHunters = db.prepare('DELETE FROM hunter WHERE id BETWEEN ? AND ?');
  const concerned = db
    .prepare<ImportedRange, number>(
      `SELECT animal_id FROM weighing WHERE id BETWEEN @weighing_first AND @weighing_last
       UNION SELECT animal_id FROM part_none WHERE id BETWEEN @part_none_first AND @part_none_last`,
    )
    .pluck();
  const leftSince = db.prepare<ImportedRange, { ticket: string; stage: string }>(
    `SELECT a.ticket, a.stage FROM animal a WHERE a.stage IN ('released', 'disposed') AND NOT ${CAME_BY_FILE} AND a.id IN (
       SELECT animal_id FROM weighing WHERE id BETWEEN @weighing_first AND @weighing_last
       UNION SELECT animal_id FROM part_none WHERE id BETWEEN @part_none_first AND @part_none_last)
     ORDER BY a.id LIMIT 1`,
  );
  const recalculateSums = (animals: string) =>
    ['animal_sum', 'cut_sum'].map((sum) =>
      db.prepare(`INSERT OR REPLACE INTO ${sum} SELECT * FROM ${sum}_now WHERE animal_id ${animals}`),
    );
  const addUpAnimals = recalculateSums('BETWEEN ? AND ?');
  const recalculateSumsOf = (animalIds: readonly number[]): void => {
    for (const animalId of animalIds) for (const statement of addUpAnimals) statement.run(animalId, animalId);
  };
  const byTicket = db.prepare<
    { ticket: string },
    { id: number; season: number; stage: string; came: number }
  >(
    `SELECT a.id, a.season, a.stage, ${CAME_BY_FILE} AS came FROM animal a
     WHERE a.id = coalesce((SELECT id FROM animal WHERE ticket = @ticket), (SELECT animal_id FROM former_ticket WHERE ticket = @ticket))`,
  );
  const byOldNumber = db.prepare<[string], { id: number; season: number; stage: string; came: number }>(
    `SELECT a.id, a.season, a.stage, 1 AS came FROM animal a WHERE a.old_number = ? AND a.old_number <> '' ORDER BY a.id LIMIT 3`,
  );
  const people = db.prepare<[], { id: number; name_key: string; phone_key: string; address: string }>(
    'SELECT id, name_key, phone_key, address FROM hunter WHERE details_removed_at IS NULL ORDER BY id',
  );

  return {
    add: (row: Omit<ImportRow, 'id' | 'undone_at'>): number => Number(insert.run(row).lastInsertRowid),
    all: () => all.all(),
    get: (id: number) => get.get(id),
    /** An earlier import of the same file that was not undone. */
    same: (kind: string, sha256: string) => same.get(kind, sha256),
    /** Marks an imported animal as finished and sets its old number. */
    finish: (animalId: number, oldNumber: string): void => void finish.run(oldNumber, animalId),
    byTicket: (ticket: string) => byTicket.get({ ticket }),
    /** Animals with an old number; several seasons may have used the same number. */
    byOldNumber: (number: string) => byOldNumber.all(number),
    /** All hunters, to match rows with known ones. */
    people: () => eachRow(people),
    /**
     * What later entries depend on records of a file; null if none do, so that the import can be undone.
     * @param crumb grams of trim that may be ground beyond what was weighed: scale rounding
     */
    since(row: ImportRow, crumb: number): Since | null {
      for (const kind of KINDS) {
        const found = firstTouched(db, kind, row);
        if (found !== null)
          return { what: kind, name: db.prepare<[number], string>(CALLED[kind]).pluck().get(found) ?? '' };
      }
      const ground = groundOf.get({ first: row.weighing_first, last: row.weighing_last, crumb });
      if (ground !== undefined) return { what: 'weighing', name: ground };
      if (row.animal_first === null || row.animal_last === null) return null;
      const ticket = laterTicket.get({ first: row.animal_first, last: row.animal_last });
      return ticket === undefined ? null : { what: 'later ticket', name: ticket };
    },
    /** An animal that was in the shop when the file added weights to it, and has left since. */
    leftSince: (row: ImportRow) => leftSince.get(row),
    /**
     * Runs `write`, which adds thousands of animals and weighings, and updates the sums of the affected animals once
     * at the end.
     */
    inBulk<W extends ImportedRange>(write: () => W): W {
      return withoutTriggers(db, sumTriggers, () => {
        const written = write();
        if (written.animal_first !== null)
          for (const statement of addUpAnimals) statement.run(written.animal_first, written.animal_last);
        else recalculateSumsOf(concerned.all(written));
        return written;
      });
    },
    /** Deletes everything that a file added. Call `since` first, in the same transaction. */
    remove(row: ImportRow, at: string, by: string): void {
      const animals = concerned.all(row);
      withoutTriggers(db, guardTriggers(['weighing', 'part_none', 'release']), () => {
        deleteWeighings.run(row.weighing_first, row.weighing_last);
        deleteNone.run(row.part_none_first, row.part_none_last);
        for (const statement of deleteAnimals) statement.run(row.animal_first, row.animal_last);
        deleteHunters.run(row.hunter_first, row.hunter_last);
      });
      if (row.animal_first === null) recalculateSumsOf(animals);
      undone.run(row.id, at, by);
    },
  };
}

/**
 * The first record of a kind that something else depends on: a row of any table that refers to it and was not added
 * by the same file, or an audited change. Derived from the foreign keys, so that new tables are included.
 */
function firstTouched(db: Db, kind: (typeof KINDS)[number], row: ImportRow): number | null {
  const [first, last] = [row[`${kind}_first`], row[`${kind}_last`]];
  if (first === null || last === null) return null;
  for (const { table, column } of childrenOf(db, kind)) {
    if (table === 'animal_sum') continue; // only sums of the rows themselves
    const found = db
      .prepare<Record<string, number | string>, number>(
        `SELECT "${column}" FROM "${table}" WHERE "${column}" BETWEEN @first AND @last ${otherThan(table, row)} LIMIT 1`,
      )
      .pluck()
      .get({ first, last, at: row.at });
    if (found !== undefined) return found;
  }
  const changed = db
    .prepare<[string, number, number], number>(
      `SELECT CAST(record_id AS INTEGER) FROM audit WHERE record = ? AND CAST(record_id AS INTEGER) BETWEEN ? AND ? LIMIT 1`,
    )
    .pluck()
    .get(kind, first, last);
  return changed ?? null;
}

function childrenOf(db: Db, parent: string): { table: string; column: string }[] {
  return db
    .prepare<[string], { table: string; column: string }>(
      `SELECT t.name AS "table", f."from" AS "column" FROM sqlite_schema t, pragma_foreign_key_list(t.name) f
       WHERE t.type = 'table' AND f."table" = ? ORDER BY t.name, f.id`,
    )
    .all(parent);
}

/** Excludes rows that the file itself added. */
function otherThan(table: string, row: ImportedRange): string {
  if (table === 'release') return 'AND at <> @at';
  if (table !== 'animal' && table !== 'weighing' && table !== 'part_none') return '';
  const [first, last] = [row[`${table}_first`], row[`${table}_last`]];
  return first === null || last === null ? '' : `AND id NOT BETWEEN ${first} AND ${last}`;
}
