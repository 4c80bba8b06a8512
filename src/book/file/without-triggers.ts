import type { Db } from './db.ts';

interface Trigger {
  name: string;
  table: string;
  sql: string;
}

/**
 * Runs `work` without some triggers, then restores them unchanged. For operations that delete whole sets of rows on a
 * person's word (undoing a file that was brought in, removing personal details after their time, filling an empty
 * book), and for writing so many rows that sums are better added up once. Call it inside the transaction: if anything
 * fails, all of it is as before.
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

/** The triggers that keep rows of these tables as they were written. */
export function guardTriggers(tables: readonly string[]): (trigger: Trigger) => boolean {
  return ({ name, table }) => tables.includes(table) && /_no_(update|delete)$/.test(name);
}

/** The triggers that keep each animal's sums beside its weighings. */
export function sumTriggers({ name }: Trigger): boolean {
  return /^(animal|cut)_sum_/.test(name);
}
