/** What every file of a temperature logger is read by, of a cooler or of a cook. */
import {
  degreesOf,
  guessLoggerColumns,
  readLoggerClock,
  type Degrees,
  type LoggerColumns,
} from '../../core/sheet/logger-cells.ts';
import { decodeSheet, guessEncoding, guessSeparator } from '../../core/sheet/text.ts';
import { guessDateOrder, readDay, type DateOrder } from '../../core/sheet/values.ts';
import { aheadOf, momentsOf } from '../../core/values/local-moment.ts';
import { ValidationError } from '../../core/values/validation-error.ts';
import { ProblemError, type Problem } from '../contract/problem.ts';
import { rowsOf, type SheetRow } from '../input/rows.ts';
import type { Session } from '../session/session.ts';

/** A logger clock that is ahead by more than this is wrong. Our choice. */
const AHEAD_MS = 60 * 60_000;
/** Loggers that lost power restart at 2000 or before; no shop's file is older than this. Our choice. */
const EARLIEST_YEAR = 2005;
const DAY_MS = 86_400_000;
/** Dates of one file that are remembered. */
const MAX_DAYS = 1000;

export interface LoggerSheet {
  degrees: Degrees;
  dates: DateOrder;
  columns: LoggerColumns;
  rows: SheetRow[];
}

/**
 * The rows of a file below its headings, and how they are to be read.
 * @param asked what the user chose; null is guessed
 * @param isReading whether a row counts; blank ones may not
 * @throws ValidationError `sheet.*`, `logger.columns`
 */
export function loggerSheet(
  session: Session,
  bytes: Uint8Array,
  asked: { degrees: Degrees | null; dates: DateOrder | null },
  isReading: (temperature: string) => boolean = () => true,
): LoggerSheet {
  const text = decodeSheet(bytes, guessEncoding(bytes));
  const all = rowsOf(text, guessSeparator(text), Infinity);
  const columns = guessLoggerColumns(all.map(({ cells }) => cells));
  const rows = all.slice(columns.above).filter((row) => isReading(cellOf(row, columns.temperature)));
  const cells = (at: number): string[] => rows.map((row) => row.cells[at] ?? '');
  const named = columns.degrees ?? degreesOf(cells(columns.temperature)[0] ?? '');
  return {
    degrees: asked.degrees ?? named ?? (session.settings.unit === 'lb' ? 'F' : 'C'),
    dates: asked.dates ?? guessDateOrder(cells(columns.date)) ?? usualOrder(session),
    columns,
    rows,
  };
}

/** Reads one row: its moment, and its temperature as the file has it. */
export type RowReader = (row: SheetRow) => { at: string; typed: string };

/**
 * A reader for the rows of a sheet, in their order: in the hour that repeats in autumn, a row after one of the second pass is of the
 * second pass, too.
 * @throws (the reader) ValidationError `logger.*`; ProblemError `logger.ahead`, `logger.too-old`
 */
export function rowReader(session: Session, { columns, dates }: LoggerSheet): RowReader {
  const { zone } = session.settings;
  const thisYear = Number(session.today().slice(0, 4));
  const latest = Date.parse(session.now()) + AHEAD_MS;
  const dayOf = dayReader(dates, thisYear, zone);
  let before = -Infinity;
  return (row) => {
    const { day, midnight, ahead } = dayOf(cellOf(row, columns.date));
    const { seconds, zoneMinutes } = readLoggerClock(cellOf(row, columns.time));
    const own = midnight + seconds * 1000;
    const candidates =
      zoneMinutes !== null
        ? [own - zoneMinutes * 60_000]
        : ahead !== null
          ? [own - ahead]
          : momentsOf(day, seconds, zone);
    const at = candidates.find((one) => one > before) ?? candidates[0] ?? own;
    if (at > latest) throw new ProblemError('invalid', 'logger.ahead', { with: { date: day } });
    if (Number(day.slice(0, 4)) < EARLIEST_YEAR)
      throw new ProblemError('invalid', 'logger.too-old', { with: { date: day } });
    before = at;
    return { at: new Date(at).toISOString(), typed: cellOf(row, columns.temperature) };
  };
}

/** A day of a file: its midnight as if it were UTC, and how far ahead of UTC its clocks are; null near a change of clocks. */
interface LoggerDay {
  readonly day: string;
  readonly midnight: number;
  readonly ahead: number | null;
}

/** Reads a date once, though a file writes it on thousands of rows. @throws (the reader) ValidationError `sheet.date`, `sheet.year` */
function dayReader(dates: DateOrder, thisYear: number, zone: string): (cell: string) => LoggerDay {
  // A cell that holds the time as well is another one on each row.
  const days = new Map<string, LoggerDay>();
  return (cell) => {
    const known = days.get(cell);
    if (known) return known;
    const day = readDay(cell, dates, thisYear);
    const midnight = Date.parse(`${day}T00:00:00Z`);
    // No zone changes its clocks twice within four days.
    const [first, last] = [aheadOf(midnight - DAY_MS, zone), aheadOf(midnight + 3 * DAY_MS, zone)];
    const read = { day, midnight, ahead: first === last ? first : null };
    if (days.size < MAX_DAYS) days.set(cell, read);
    return read;
  };
}

/** The problem of a row that could not be read. Anything else goes on. */
export function problemOfRow(error: unknown): Problem {
  if (error instanceof ProblemError) return error.problem;
  if (error instanceof ValidationError) return { kind: 'invalid', code: error.code, with: { ...error.with } };
  throw error;
}

const cellOf = ({ cells }: SheetRow, at: number): string => (cells[at] ?? '').trim();

const usualOrder = (session: Session): DateOrder =>
  /-(US|PH)$/.test(session.settings.locale) ? 'month first' : 'day first';
