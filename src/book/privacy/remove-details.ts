import { nameKey } from '../records/hunters.ts';
import type { Db } from '../file/db.ts';
import { PERSONAL_TEXT, WAS_OWNED } from './personal-text.ts';
import { guardTriggers, withoutTriggers } from '../file/without-triggers.ts';
import { withoutWords, wordsOfHunter } from './words-of-hunter.ts';

/** Fields that audit rows keep: codes, dates, numbers and weights. */
const FACTS: ReadonlySet<string> = new Set([
  'stage', 'detail', 'species', 'sex', 'age', 'origin', 'kill_date', 'received_on', 'receivedOn', 'released_on', 'on', 'season',
  'ticket', 'hunter_id', 'state', 'fatMovementId', 'inGrams', 'outGrams', 'typed', 'grams', 'kind', 'amountMinor', 'number', 'totalMinor',
]); // prettier-ignore

/** When a hunter's last animal left, and whether one is still in the shop. */
export interface Leaving {
  last: string | null;
  open: number;
}

/** Removes a hunter's personal details from the book; every weight, date and sum stays. */
export function detailsRemoval(db: Db) {
  const leaving = db.prepare<[number], Leaving>(
    `SELECT max(coalesce(d.disposed_on, r.released_on, a.received_on)) AS last,
       coalesce(sum(a.stage NOT IN ('released', 'disposed')), 0) AS open
     FROM hunter h LEFT JOIN animal a ON a.id IN (SELECT own.id FROM animal own WHERE own.hunter_id = h.id
         UNION SELECT s.animal_id FROM share_now s WHERE s.hunter_id = h.id) LEFT JOIN release_now r ON r.animal_id = a.id
       LEFT JOIN disposal_now d ON d.animal_id = a.id WHERE h.id = ?`,
  );
  const removedAt = db
    .prepare<[number], string | null>('SELECT details_removed_at FROM hunter WHERE id = ?')
    .pluck();
  const lastRemoval = db.prepare<[], string | null>('SELECT max(details_removed_at) FROM hunter').pluck();
  const words = wordsOfHunter(db);
  let replacements: ReadonlyMap<string, string> = new Map();
  db.function('other_word', (word: string | null) =>
    word === null ? null : (replacements.get(word) ?? word),
  );
  db.function('other_words', (json: string) => withoutWords(json, replacements));
  db.function('audit_facts', factsOf);
  db.function('name_key_of', (name: string | null) => (name === null ? null : nameKey(name)));
  const mark = db.prepare<{ id: number; at: string }>(
    'UPDATE hunter SET details_removed_at = @at WHERE id = @id',
  );
  const clear = Object.entries(PERSONAL_TEXT).map(([table, { rows, columns }]) => {
    const set = Object.entries(columns).map(([column, [, becomes]]) => `${column} = ${becomes}`);
    return db.prepare<{ id: number }>(`UPDATE ${table} SET ${set.join(', ')} WHERE ${rows}`);
  });

  const markDrafts = db.prepare<{ id: number; at: string }>(
    `UPDATE draft SET details_removed_at = @at WHERE details_removed_at IS NULL AND ${PERSONAL_TEXT.draft?.rows}`,
  );

  // After a correction of its owner an animal may still carry the previous owner's licence.
  const strayLicence = db.prepare<{ id: number }>(
    `UPDATE animal SET licence = '' WHERE licence <> '' AND hunter_id <> @id
       AND licence = (SELECT licence FROM hunter WHERE id = @id)
       AND id IN (SELECT CAST(record_id AS INTEGER) FROM audit WHERE ${WAS_OWNED})`,
  );

  return {
    leaving: (hunterId: number) => leaving.get(hunterId),
    removedAt: (hunterId: number) => removedAt.get(hunterId) ?? null,
    /** When details were last removed, or null. */
    lastRemoval: () => lastRemoval.get() ?? null,
    /**
     * Call inside the transaction, and `wipe` after it.
     * @param known names of products, fats and extras that are not personal
     */
    remove(id: number, at: string, known: readonly string[]): void {
      db.pragma('secure_delete = ON');
      try {
        replacements = words.replacements(id, known);
        withoutTriggers(db, guardTriggers(Object.keys(PERSONAL_TEXT)), () => {
          strayLicence.run({ id });
          markDrafts.run({ id, at });
          for (const statement of clear) statement.run({ id });
          mark.run({ id, at });
        });
      } finally {
        replacements = new Map();
        db.pragma('secure_delete = OFF');
      }
    },
    /**
     * Rewrites the file, so that unused pages keep nothing of the removed text, and empties the log. Not inside a
     * transaction.
     * @throws SqliteError without free space on the disk, or while another program has the book open
     */
    wipe(): void {
      db.exec('VACUUM');
      const [log] = db.pragma('wal_checkpoint(TRUNCATE)') as { busy: number }[];
      if (log?.busy !== 0) throw new Error('the log is in use');
    },
  };
}

/** The facts of an audit row that identify nobody. */
export function factsOf(json: string | null): string | null {
  const facts: unknown = json === null ? null : JSON.parse(json);
  if (typeof facts !== 'object' || facts === null || Array.isArray(facts)) return null;
  const kept = Object.entries(facts).filter(([key]) => FACTS.has(key));
  return kept.length === 0 ? null : JSON.stringify(Object.fromEntries(kept));
}
