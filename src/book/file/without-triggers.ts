import type { Db } from './db.ts';

interface Trigger {
  name: string;
  table: string;
  sql: string;
}

/**
 * Runs `work` without some triggers, then restores them unchanged. Used by operations that delete whole sets of
 * rows on request (undoing an import, removing personal details, filling an empty book), and by bulk writes after
 * which sums are computed once. Call it inside the transaction, so that a failure rolls everything back.
 */
export function withoutTriggers<T>(db: Db, which: (trigger: Trigger) => boolean, work: () => T): T {
  const aside = db
    .prepare<[], Trigger>('SELECT name, tbl_name AS "table", sql FROM sqlite_schema WHERE type = \'trigger\'')
    .all()
    .filter(which);
  for (const { name } of aside) db.exec(`DROP TRIGGER "${name}"`);
  const done = work();
  for (const { sql } of aside) db.exec(sql);
  return done;
}

/** The triggers that keep these tables append-only. */
export function guardTriggers(tables: readonly string[]): (trigger: Trigger) => boolean {
  return ({ name, table }) => tables.includes(table) && /_no_(update|delete)$/.test(name);
}

/** The triggers that maintain each animal's sums. */
export function sumTriggers({ name }: Trigger): boolean {
  return /^(animal|cut)_sum_/.test(name);
}
