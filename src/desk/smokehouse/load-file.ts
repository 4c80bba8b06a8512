/** Reads a temperature logger's file as readings of a product: as it came, in its order, odd values too. */
import { readLoggerValue, type Degrees } from '../../core/sheet/logger-cells.ts';
import type { DateOrder } from '../../core/sheet/values.ts';
import type { NewReading } from '../../book/records/smokehouse/load-logs.ts';
import type { Problem } from '../contract/problem.ts';
import { loggerSheet, problemOfRow, rowReader } from '../coolers/logger-rows.ts';
import type { Session } from '../session/session.ts';

/** Longest text of a temperature that is kept. */
const LONGEST = 60;

export interface ReadLog {
  readonly degrees: Degrees;
  readonly readings: readonly NewReading[];
  /** Rows whose moment cannot be read. */
  readonly problems: readonly { row: number; problem: Problem }[];
}

/** @throws ValidationError `sheet.*`, `logger.columns` */
export function readLog(
  session: Session,
  bytes: Uint8Array,
  asked: { degrees: Degrees | null; dates: DateOrder | null },
): ReadLog {
  const sheet = loggerSheet(session, bytes, asked);
  const readings: NewReading[] = [];
  const problems: { row: number; problem: Problem }[] = [];
  const readRow = rowReader(session, sheet);
  for (const row of sheet.rows)
    try {
      const { at, typed } = readRow(row);
      const kept = typed.slice(0, LONGEST);
      readings.push({ readAt: at, typed: kept, value: inDegrees(kept, sheet.degrees) });
    } catch (error) {
      problems.push({ row: row.number, problem: problemOfRow(error) });
    }
  return { degrees: sheet.degrees, readings, problems };
}

/** The number of a cell in the degrees of its log, or null. */
export function inDegrees(typed: string, degrees: Degrees): number | null {
  const { value, degrees: own } = readLoggerValue(typed, degrees);
  if (value === null || own === degrees) return value;
  return own === 'C' ? (value * 9) / 5 + 32 : ((value - 32) * 5) / 9;
}
