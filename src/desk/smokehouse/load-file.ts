/** Reads a temperature logger's file as readings of a product: as it came, in its order, odd values too. */
import { ValidationError } from '../../core/values/validation-error.ts';
import {
  degreesOf,
  guessLoggerColumns,
  readLoggerMoment,
  readLoggerValue,
  type Degrees,
  type LoggerColumns,
} from '../../core/sheet/logger-cells.ts';
import { decodeSheet, guessEncoding, guessSeparator } from '../../core/sheet/text.ts';
import { guessDateOrder, type DateOrder } from '../../core/sheet/values.ts';
import type { NewReading } from '../../book/records/smokehouse/load-logs.ts';
import { rowsOf, type SheetRow } from '../input/rows.ts';
import { momentsOf } from '../../core/values/local-moment.ts';
import { ProblemError, type Problem } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** A logger clock that is ahead by more than this is wrong. Our choice. */
const AHEAD_MS = 60 * 60_000;
/** Loggers that lost power restart at 2000 or before. Our choice. */
const EARLIEST_YEAR = 2005;

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
  const text = decodeSheet(bytes, guessEncoding(bytes));
  const rows = rowsOf(text, guessSeparator(text), Infinity);
  const columns = guessLoggerColumns(rows.map(({ cells }) => cells));
  const below = rows.slice(columns.above);
  const cells = (at: number): string[] => below.map((row) => row.cells[at] ?? '');
  const named = columns.degrees ?? degreesOf(cells(columns.temperature)[0] ?? '');
  const degrees = asked.degrees ?? named ?? (session.settings.unit === 'lb' ? 'F' : 'C');
  const dates = asked.dates ?? guessDateOrder(cells(columns.date)) ?? usualOrder(session);
  const readings: NewReading[] = [];
  const problems: { row: number; problem: Problem }[] = [];
  let before = -Infinity;
  for (const row of below)
    try {
      const reading = readRow(session, row, columns, { degrees, dates }, before);
      before = Date.parse(reading.readAt);
      readings.push(reading);
    } catch (error) {
      problems.push({ row: row.number, problem: problemOf(error) });
    }
  return { degrees, readings, problems };
}

function readRow(
  session: Session,
  { cells }: SheetRow,
  columns: LoggerColumns,
  { degrees, dates }: { degrees: Degrees; dates: DateOrder },
  before: number,
): NewReading {
  const cell = (at: number): string => (cells[at] ?? '').trim();
  const thisYear = Number(session.today().slice(0, 4));
  const moment = readLoggerMoment(cell(columns.date), cell(columns.time), dates, thisYear);
  const own = Date.parse(`${moment.day}T00:00:00Z`) + moment.seconds * 1000;
  const candidates =
    moment.zoneMinutes === null
      ? momentsOf(moment.day, moment.seconds, session.settings.zone)
      : [own - moment.zoneMinutes * 60_000];
  // In the hour that repeats in autumn, a later row means the second pass.
  const at = candidates.find((one) => one > before) ?? candidates[0] ?? own;
  if (at > Date.parse(session.now()) + AHEAD_MS)
    throw new ProblemError('invalid', 'logger.ahead', { with: { date: moment.day } });
  if (Number(moment.day.slice(0, 4)) < EARLIEST_YEAR)
    throw new ProblemError('invalid', 'logger.too-old', { with: { date: moment.day } });
  const typed = cell(columns.temperature).slice(0, 60);
  return { readAt: new Date(at).toISOString(), typed, value: inDegrees(typed, degrees) };
}

/** The number of a cell in the degrees of its log, or null. */
export function inDegrees(typed: string, degrees: Degrees): number | null {
  const { value, degrees: own } = readLoggerValue(typed, degrees);
  if (value === null || own === degrees) return value;
  return own === 'C' ? (value * 9) / 5 + 32 : ((value - 32) * 5) / 9;
}

const usualOrder = (session: Session): DateOrder =>
  /-(US|PH)$/.test(session.settings.locale) ? 'month first' : 'day first';

function problemOf(error: unknown): Problem {
  if (error instanceof ProblemError) return error.problem;
  if (error instanceof ValidationError) return { kind: 'invalid', code: error.code, with: { ...error.with } };
  throw error;
}
