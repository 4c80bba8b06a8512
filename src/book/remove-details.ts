import type { Db } from './open.ts';
import { guardsOf, setTriggersAside } from './set-aside.ts';

/** Stands where a name had to stay. */
const REMOVED = 'removed';

/** What may tell who somebody was, wherever an animal's record was changed. */
const PERSONAL = ['licence', 'tag', 'deliverer', 'delivererName', 'delivererAddress', 'deliverer_name', 'deliverer_address', 'name', 'address', 'phone', 'to', 'given_to']
  .map((key) => `'$.${key}'`)
  .join(', '); // prettier-ignore

/** When a hunter's last animal left, and whether one is still here. */
export interface Leaving {
  last: string | null;
  open: number;
}

/** Taking a hunter's personal details out of the book, while every weight, date and sum stays. */
export function removedDetails(db: Db) {
  const leaving = db.prepare<[number], Leaving>(
    `SELECT max(coalesce(d.disposed_on, r.released_on, a.received_on)) AS last,
       coalesce(sum(a.stage NOT IN ('released', 'disposed')), 0) AS open
     FROM hunter h LEFT JOIN animal a ON a.hunter_id = h.id LEFT JOIN release_now r ON r.animal_id = a.id
       LEFT JOIN disposal_now d ON d.animal_id = a.id WHERE h.id = ?`,
  );
  const removedAt = db
    .prepare<[number], string | null>('SELECT details_removed_at FROM hunter WHERE id = ?')
    .pluck();
  const ofHunter = 'IN (SELECT id FROM animal WHERE hunter_id = @id)';
  const blank = [
    `UPDATE hunter SET name = '${REMOVED} ' || id, name_key = '${REMOVED} ' || id, phone = '', phone_key = '', email = '', address = '',
       licence = '', note = '', details_removed_at = @at WHERE id = @id`,
    `UPDATE animal SET deliverer_name = '', deliverer_address = '', licence = '', tag = '' WHERE hunter_id = @id`,
    `UPDATE release SET given_to = '${REMOVED}', note = '' WHERE animal_id ${ofHunter}`,
    `UPDATE release_mend SET given_to = '${REMOVED}' WHERE release_id IN (SELECT id FROM release WHERE animal_id ${ofHunter})`,
    `UPDATE call_note SET text = '${REMOVED}' WHERE animal_id ${ofHunter}`,
    `UPDATE quote SET hunter_name = '' WHERE hunter_id = @id OR id IN (SELECT quote_id FROM quote_taken WHERE animal_id ${ofHunter})`,
    `UPDATE instruction SET body = json_set(body, '$.note', '') WHERE body ->> '$.note' <> '' AND animal_id ${ofHunter}`,
    `UPDATE audit SET before = NULL, after = NULL, reason = '' WHERE record = 'hunter' AND record_id = (SELECT CAST(id AS TEXT) FROM hunter WHERE id = @id)`,
    `UPDATE audit SET before = json_remove(before, ${PERSONAL}), after = json_remove(after, ${PERSONAL}), reason = ''
       WHERE record = 'animal' AND record_id IN (SELECT CAST(id AS TEXT) FROM animal WHERE hunter_id = @id)`,
  ].map((sql) => db.prepare<{ id: number; at: string }>(sql));

  return {
    leaving: (hunterId: number) => leaving.get(hunterId),
    removedAt: (hunterId: number) => removedAt.get(hunterId) ?? null,
    /** Call inside the transaction. What is taken out is written over in the file, too. */
    remove(id: number, at: string): void {
      db.pragma('secure_delete = ON');
      try {
        setTriggersAside(
          db,
          guardsOf(['release', 'release_mend', 'call_note', 'quote', 'instruction', 'audit']),
          () => {
            for (const statement of blank) statement.run({ id, at });
          },
        );
      } finally {
        db.pragma('secure_delete = OFF');
      }
    },
  };
}
