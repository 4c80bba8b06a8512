/** Rows of a book as JSON that PostgreSQL takes, and the reasons why one cannot be taken. */
import type { LedgerTable } from '../tables/ledger-tables.ts';

export type BookValue = string | number | null | Uint8Array;

/** Why PostgreSQL has no place for a value. */
export type Unfit =
  | 'zero character'
  | 'half a character'
  | 'no finite number'
  | 'too long a number'
  | 'refused';

/**
 * The first value of a row that PostgreSQL would refuse or change.
 * SQLite takes U+0000 and halves of surrogate pairs in text, infinite numbers, and integers of 64 bits; of those JavaScript
 * reads the digits past 2^53 wrong.
 * @example unfitOf(['a\u0000b'], table) // 'zero character'
 */
export function unfitOf(row: readonly BookValue[], { columns }: LedgerTable): Unfit | null {
  for (const [at, value] of row.entries()) {
    if (typeof value === 'string') {
      if (value.includes('\u0000')) return 'zero character';
      if (!value.isWellFormed()) return 'half a character';
    } else if (typeof value === 'number') {
      if (!Number.isFinite(value)) return 'no finite number';
      if (columns[at]?.type === 'INTEGER' && !Number.isSafeInteger(value)) return 'too long a number';
    }
  }
  return null;
}

/** A row as a JSON array, for a row that fits. Bytes become hexadecimal digits. */
export function rowJson(row: readonly BookValue[]): string {
  return JSON.stringify(row.map(plain));
}

const plain = (value: BookValue): string | number | null =>
  value instanceof Uint8Array ? Buffer.from(value).toString('hex') : value;

/**
 * Any row as JSON of plain ASCII escapes, from which `exactValues` makes it again: for what PostgreSQL has no place for.
 * @example exactJson([Infinity]) // '[{"number":"Infinity"}]'
 */
export function exactJson(row: readonly BookValue[]): string {
  return JSON.stringify(
    row.map((value) => {
      if (value instanceof Uint8Array) return { hex: plain(value) };
      return typeof value === 'number' && !Number.isFinite(value) ? { number: String(value) } : value;
    }),
  );
}

/** The row of an `exactJson`. @throws Error for any other text */
export function exactValues(json: string): BookValue[] {
  const row: unknown = JSON.parse(json);
  if (!Array.isArray(row)) throw new Error('no row');
  return row.map((value: unknown): BookValue => {
    if (value === null || typeof value === 'string' || typeof value === 'number') return value;
    if (typeof value === 'object' && 'hex' in value && typeof value.hex === 'string')
      return Buffer.from(value.hex, 'hex');
    if (typeof value === 'object' && 'number' in value) return Number(value.number);
    throw new Error('no value');
  });
}
