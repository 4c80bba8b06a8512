/** Everything about one hunter, by following references: animals, weights, bills, calls, changes. */
import type { Db } from '../../book/file/db.ts';
import { quoted, rowsOfTable, tablesOf, type CellValue, type Table } from '../../book/file/tables.ts';

interface HunterRecords {
  table: Table;
  rows: CellValue[][];
}

/** References that are followed: sums and lookups only repeat other rows, and a batch belongs to several hunters. */
const LEADS: Readonly<Record<string, readonly string[]>> = {
  hunter: ['hunter_id'],
  animal: ['animal_id'],
  bill: ['bill_id'],
  hold: ['hold_id'],
  payment: ['payment_id'],
  weighing: ['weighing_id'],
  part_none: ['none_id'],
  work_time: ['work_time_id'],
  adjustment: ['adjustment_id'],
  photograph: ['photograph_id'],
  quote: ['quote_id'],
};
const REPEATS = /_(sum|lookup)$/;

/** All rows about a hunter, by table; empty tables are omitted. */
export function recordsOfHunter(db: Db, hunterId: number): HunterRecords[] {
  const tables = new Map(
    tablesOf(db)
      .filter(({ name }) => !REPEATS.test(name))
      .map((table) => [table.name, table]),
  );
  const found = new Map<string, HunterRecords>();
  const visit = (name: string, column: string, ids: readonly CellValue[]): void => {
    const table = tables.get(name);
    if (!table || ids.length === 0 || found.has(`${name} ${column}`)) return;
    const rows = [
      ...rowsOfTable(
        db,
        table,
        `WHERE ${quoted(column)} IN (SELECT value FROM json_each(?))`,
        JSON.stringify(ids),
      ),
    ];
    found.set(`${name} ${column}`, { table, rows });
    const key = table.columns.indexOf('id');
    const leads = LEADS[name] ?? [];
    if (key < 0) return;
    for (const child of tables.values())
      for (const lead of leads)
        if (child.columns.includes(lead))
          visit(
            child.name,
            lead,
            rows.map((row) => row[key] ?? null),
          );
  };
  visit('hunter', 'id', [hunterId]);
  return [...merged(found), ...auditOf(db, tables, merged(found))].filter(({ rows }) => rows.length > 0);
}

/** A table may be reached on two paths: a payment by its animal and by its bill. */
function merged(found: ReadonlyMap<string, HunterRecords>): HunterRecords[] {
  const tables = new Map<string, HunterRecords>();
  for (const { table, rows } of found.values()) {
    const before = tables.get(table.name)?.rows ?? [];
    const known = new Set(before.map((row) => JSON.stringify(row)));
    tables.set(table.name, {
      table,
      rows: [...before, ...rows.filter((row) => !known.has(JSON.stringify(row)))],
    });
  }
  return [...tables.values()];
}

function auditOf(
  db: Db,
  tables: ReadonlyMap<string, Table>,
  records: readonly HunterRecords[],
): HunterRecords[] {
  const audit = tables.get('audit');
  if (!audit) return [];
  const rows = records.flatMap(({ table, rows: of }) => {
    const key = table.columns.indexOf('id');
    const ids = key < 0 ? [] : of.map((row) => String(row[key]));
    return [
      ...rowsOfTable(
        db,
        audit,
        'WHERE record = ? AND record_id IN (SELECT value FROM json_each(?))',
        table.name,
        JSON.stringify(ids),
      ),
    ];
  });
  return [{ table: audit, rows }];
}

/** The same as one JSON text: a list of rows for each table, each row with its column names. */
export function hunterAsText(records: readonly HunterRecords[]): string {
  const named = records.map(({ table, rows }) => [
    table.name,
    rows.map((row) => Object.fromEntries(table.columns.map((column, i) => [column, row[i] ?? null]))),
  ]);
  return `${JSON.stringify(Object.fromEntries(named), null, 2)}\n`;
}
