import type Database from 'better-sqlite3';

/** The open row iterators of each connection. */
const reading = new WeakMap<Database.Database, Set<Iterator<unknown>>>();

/**
 * Iterates over the rows of a statement. Reading starts with the first `next()` and ends on every exit: a
 * connection with an open iterator refuses writes. A lint rule allows `iterate` only here.
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

/** Ends all iterators of a connection, so that it can be closed. */
export function endReading(db: Database.Database): void {
  for (const rows of reading.get(db) ?? []) rows.return?.();
  reading.delete(db);
}
