import type { Db } from '../file/db.ts';
import { guardTriggers, withoutTriggers } from '../file/without-triggers.ts';
import { PERSONAL_TEXT } from './personal-text.ts';

/** Of drafts that became no ticket; those that did go with their hunter's details. */
const OLD = `details_removed_at IS NULL AND at < @before
  AND id NOT IN (SELECT s.draft_id FROM draft_state s WHERE s.state = 'taken')`;

/** Removes personal details of drafts that nobody took in. */
export function oldDrafts(db: Db) {
  const due = db.prepare<{ before: string }>(`SELECT 1 FROM draft WHERE ${OLD} LIMIT 1`).pluck();
  const columns = Object.entries(PERSONAL_TEXT.draft?.columns ?? {});
  const set = columns.map(([column, [, becomes]]) => `${column} = ${becomes}`);
  const clear = db.prepare<{ before: string; at: string }>(
    `UPDATE draft SET ${set.join(', ')}, details_removed_at = @at WHERE ${OLD}`,
  );
  const reasons = db.prepare<{ at: string }>(
    `UPDATE draft_state SET reason = 'removed' WHERE reason <> ''
       AND draft_id IN (SELECT id FROM draft WHERE details_removed_at = @at)`,
  );
  return {
    /** @param before moment: drafts from before it */
    due: (before: string): boolean => due.get({ before }) !== undefined,
    /** Call inside a transaction. What is replaced is overwritten in the file. */
    remove(before: string, at: string): void {
      db.pragma('secure_delete = ON');
      try {
        withoutTriggers(db, guardTriggers(['draft', 'draft_state']), () => {
          clear.run({ before, at });
          reasons.run({ at });
        });
      } finally {
        db.pragma('secure_delete = OFF');
      }
    },
  };
}
