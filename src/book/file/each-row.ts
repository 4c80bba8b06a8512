import type Database from 'better-sqlite3';

/** The open row iterators of each connection. */
const reading = new WeakMap<Database.Database, Set<Iterator<unknown>>>();

/**
 * The rows of a statement, one after the other. Reading begins with the first row asked for and ends on every way out:
 * a connection with a row still open refuses all writing, so nothing may begin that might never be ended. This is the
 * only place that reads so; lint says it.
 */
export function* eachRow<Bound extends unknown[], Row>(
  statement: Database.Statement<Bound, Row>,
  ...bound: Bound
): Generator<Row> {
  const rows = statement.iterate(...bound);
  const open = reading.get(statement.database) ?? new Set();
  reading.set(statement.database, open.add(rows));
  try {
    yield* rows;
  } finally {
    rows.return?.();
    open.delete(rows);
  }
}

/** Ends all that is still being read over a connection, so that it can be closed. */
export function endReading(db: Database.Database): void {
  for (const rows of reading.get(db) ?? []) rows.return?.();
  reading.delete(db);
}
