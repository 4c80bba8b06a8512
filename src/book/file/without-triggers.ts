import { isFeedTrigger } from '../feed/feed-schema.ts';
import type { Db } from './db.ts';

interface Trigger {
  name: string;
  table: string;
  sql: string;
}

/**
 * Runs `work` without some triggers, then restores them unchanged. Used by operations that delete whole sets of
 * rows on request (undoing an import, removing personal details, filling an empty book), and by bulk writes after
 * which sums are computed once. Call it inside the transaction, so that a failure rolls everything back. A feed sees
 * these writes too: its triggers always stay.
 */
export function withoutTriggers<T>(db: Db, which: (trigger: Trigger) => boolean, work: () => T): T {
  const putBack = setTriggersAside(db, which);
  const done = work();
  putBack();
  return done;
}

/** As `withoutTriggers`, for work that waits in between. @returns a function that puts them back */
export function setTriggersAside(db: Db, which: (trigger: Trigger) => boolean): () => void {
  const aside = db
    .prepare<[], Trigger>('SELECT name, tbl_name AS "table", sql FROM sqlite_schema WHERE type = \'trigger\'')
    .all()
    .filter((trigger) => !isFeedTrigger(trigger.name) && which(trigger));
  for (const { name } of aside) db.exec(`DROP TRIGGER "${name}"`);
  return () => aside.forEach(({ sql }) => db.exec(sql));
}

/** The triggers that keep these tables append-only. */
export function guardTriggers(tables: readonly string[]): (trigger: Trigger) => boolean {
  return ({ name, table }) => tables.includes(table) && /_no_(update|delete)$/.test(name);
}

/** The triggers that maintain each animal's sums. */
export function sumTriggers({ name }: Trigger): boolean {
  return /^(animal|cut)_sum_/.test(name);
}
