/**
 * Repairs invalid moments and dates in records that are copied into a clean book, so that a single bad entry
 * neither locks a shop out nor breaks a page.
 */
import { isTime, timeColumns, type TimeColumn } from './check-moments.ts';
import type { Db } from './db.ts';
import { quoted } from './tables.ts';
import { reasonKept } from '../../trade/offered.ts';

/** A column with invalid moments or dates, and the number of rows. */
export interface RepairedTime {
  table: string;
  column: string;
  rows: number;
}

/** Derived tables, which are recomputed. */
const DERIVED = /_(sum|lookup)$|^season_taught$/;

/**
 * Replaces each invalid moment or date with that of the previous row, else of the next one, else `now`. The
 * original value is written to the audit, row by row. Requires that no trigger guards the rows.
 */
export function repairTimes(db: Db, now: Date): RepairedTime[] {
  db.function('is_time', { deterministic: true }, (value, kind) => (isTime(value, kind) ? 1 : 0));
  return timeColumns(db)
    .filter(({ table }) => !DERIVED.test(table))
    .map((of) => ({ table: of.table, column: of.column, rows: mendColumn(db, of, now.toISOString()) }))
    .filter(({ rows }) => rows > 0);
}

function mendColumn(db: Db, { table, column, kind }: TimeColumn, now: string): number {
  const [from, of, key] = [quoted(table), quoted(column), keyOf(db, table)];
  const keys = (alias: string): string => key.map((one) => `${alias}.${one}`).join();
  const near = (side: '<' | '>', order: string): string =>
    `(SELECT n.${of} FROM ${from} n WHERE (${keys('n')}) ${side} (${keys('t')}) AND is_time(n.${of}, @kind)
      ORDER BY ${key.map((one) => `n.${one} ${order}`).join()} LIMIT 1)`;
  const instead = `coalesce(${near('<', 'DESC')}, ${near('>', 'ASC')}, @usual)`;
  const wrong = `t.${of} IS NOT NULL AND NOT is_time(t.${of}, @kind)`;
  const bound = { kind, usual: kind === 'day' ? now.slice(0, 10) : now };
  db.prepare(
    `INSERT INTO audit (record, record_id, act, before, after, reason, at, by)
     SELECT 'book', @table || ' ' || ${key.map((one) => `t.${one}`).join(" || ' ' || ")}, 'change', json_object(@column, t.${of}), json_object(@column, ${instead}), @reason, @now, ''
     FROM ${from} t WHERE ${wrong}`,
  ).run({ ...bound, table, column, now, reason: reasonKept(kind === 'day' ? 'not-a-day' : 'not-a-moment') });
  return db.prepare(`UPDATE ${from} AS t SET ${of} = ${instead} WHERE ${wrong}`).run(bound).changes;
} // prettier-ignore

/** The key columns of a table, in the order of writing where that is known. */
function keyOf(db: Db, table: string): string[] {
  const key = db
    .prepare<[string], string>('SELECT name FROM pragma_table_info(?) WHERE pk > 0 ORDER BY pk')
    .pluck()
    .all(table);
  return key.length > 0 ? key.map(quoted) : ['rowid'];
}
