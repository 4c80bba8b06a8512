/** The rows of one table of a branch, as the book had them. */
import { MORE, type LedgerColumn, type LedgerTable } from '../tables/ledger-tables.ts';
import { exactValues, type BookValue } from '../feed/encode.ts';
import { quoted, type Server } from '../server/server.ts';

/** Rows fetched at a time: a few megabytes. */
const AT_ONCE = 10_000;

/**
 * Reads in pages, inside the transaction that is open.
 * @param known the columns that the server has of the table; undefined: none, its rows lie with the other tables'
 */
export async function* rowsOf(
  server: Server,
  shop: number,
  table: LedgerTable,
  known: ReadonlySet<string> | undefined,
): AsyncGenerator<BookValue[]> {
  if (known) yield* pagesOf(server, selection(table, known), shop, table);
  // What a server keeps of a table that it does not know, or knew by another key.
  yield* pagesOf(server, otherSelection(table), shop, table);
  const kept = await server.rows(
    'SELECT body FROM ledger.quarantine WHERE shop = $1 AND tbl = $2 ORDER BY key',
    [shop, table.name],
  );
  for (const [body] of kept) yield exactValues(String(body));
}

async function* pagesOf(
  server: Server,
  select: string,
  shop: number,
  table: LedgerTable,
): AsyncGenerator<BookValue[]> {
  // The number of a shop is an integer of ours, and a cursor takes no values.
  const bound = select.replaceAll('$1', String(Math.trunc(shop)));
  await server.script(`DECLARE of_table NO SCROLL CURSOR FOR ${bound}`);
  for (;;) {
    const page = await server.rows(`FETCH ${AT_ONCE} FROM of_table`);
    for (const row of page) yield row.map((value, at) => bookValue(value, table.columns[at]));
    if (page.length < AT_ONCE) break;
  }
  await server.script('CLOSE of_table');
}

function selection({ name, key, columns }: LedgerTable, known: ReadonlySet<string>): string {
  const values = columns.map((column) =>
    known.has(column.name) ? shown(column) : `${MORE} ->> '${column.name}'`,
  );
  return `SELECT ${values.join(', ')} FROM ledger.${quoted(name)} WHERE shop = $1 ORDER BY ${key.map(quoted).join(', ')}`;
}

function otherSelection({ name, columns }: LedgerTable): string {
  const values = columns.map((column) => `body ->> '${column.name}'`);
  return `SELECT ${values.join(', ')} FROM ledger.other WHERE shop = $1 AND tbl = '${name}' ORDER BY key`;
}

const shown = ({ name, type }: LedgerColumn): string =>
  type === 'BLOB' ? `encode(${quoted(name)}, 'hex')` : quoted(name);

function bookValue(value: unknown, column: LedgerColumn | undefined): BookValue {
  if (value === null || value === undefined) return null;
  if (column?.type === 'TEXT') return String(value);
  if (column?.type === 'BLOB') return Buffer.from(String(value), 'hex');
  return Number(value);
}
