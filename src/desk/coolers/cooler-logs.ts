/** Imports files of temperature loggers: with a preview, all or nothing, no reading twice, undone as one step. */
import * as v from 'valibot';
import { ValidationError } from '../../core/values/validation-error.ts';
import {
  degreesOf,
  guessLoggerColumns,
  readLoggerDegrees,
  readLoggerMoment,
  type Degrees,
  type LoggerColumns,
} from '../../core/sheet/logger-cells.ts';
import { decodeSheet, guessEncoding, guessSeparator } from '../../core/sheet/text.ts';
import { guessDateOrder, type DateOrder } from '../../core/sheet/values.ts';
import { rowsOf, type SheetRow } from '../input/rows.ts';
import { dropUpload, longUpload, tableOf } from '../session/upload.ts';
import { coolerOf } from './coolers.ts';
import { askFar } from '../input/day-doubts.ts';
import { by, id, confirmedOf } from '../input/input.ts';
import { momentsOf } from '../../core/values/local-moment.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError, type Problem } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { CoolerLogCard, LogPreview } from '../contract/contract.ts';

/** Maximum number of rows listed; beyond it only their number. */
const MAX_LISTED = 20;
const FIRST_SHOWN = 5;
/** A logger clock that is ahead by more than this is wrong. Our choice. */
const AHEAD_MS = 60 * 60_000;
/** Loggers that lost power restart at 2000 or before; no shop's file is older than this. Our choice. */
const EARLIEST_YEAR = 2005;
/** Older readings need a confirmation. Our choice. */
const OLD_DAYS = 400;

const which = {
  coolerId: id,
  upload: id,
  degrees: v.optional(v.nullable(v.picklist(['F', 'C'], 'choice.degrees')), null),
  dates: v.optional(v.nullable(v.picklist(['day first', 'month first'], 'choice.dates')), null),
};

interface LoggerReading {
  at: string;
  typed: string;
  tenthsC: number;
}

interface LoggerFile {
  degrees: Degrees;
  dates: DateOrder;
  /** Not in the book yet, in file order. */
  fresh: LoggerReading[];
  known: number;
  problems: { row: number; problem: Problem }[];
}

/** Previews a file, with all errors. Writes nothing. @throws ValidationError `sheet.*`, `logger.columns` */
export const previewLog = read(
  v.object(which),
  (session, input): LogPreview => {
    const { name, bytes } = tableOf(session, input.upload);
    const { fresh, known, problems, ...how } = readFile(session, bytes, input);
    const times = fresh.map(({ at }) => at).sort();
    const temperatures = fresh.map(({ tenthsC }) => tenthsC / 10);
    return {
      name,
      ...how,
      fresh: fresh.length,
      known,
      from: times[0] ?? null,
      to: times.at(-1) ?? null,
      lowestC: lowest(temperatures),
      highestC: highest(temperatures),
      first: fresh.slice(0, FIRST_SHOWN).map(({ at, typed, tenthsC }) => ({ at, typed, c: tenthsC / 10 })),
      problems: problems.slice(0, MAX_LISTED),
      problemCount: problems.length,
    };
  },
  false,
  longUpload,
);

/**
 * Imports the readings that are not in the book yet, all or nothing.
 * @throws ProblemError `cooler.unknown`, `sheet.problems` (refused), `logger.nothing-new` (refused), `date.long-ago`
 * (conflict: pass `confirmed`)
 */
export const importLog = write(
  v.object({ ...which, confirmed: confirmedOf, by }),
  (session, input) => {
    const cooler = coolerOf(session, input.coolerId);
    const { name, bytes, sha256 } = tableOf(session, input.upload);
    const { fresh, known, problems } = readFile(session, bytes, input);
    const [first] = problems;
    if (first)
      throw new ProblemError('refused', 'sheet.problems', {
        with: { count: problems.length, row: first.row },
      });
    if (fresh.length === 0)
      throw new ProblemError('refused', 'logger.nothing-new', { with: { count: known } });
    const oldest = fresh.reduce((least, { at: one }) => (one < least ? one : least), session.now());
    const span = { ago: OLD_DAYS };
    askFar(input.confirmed, 'upload', session.dayOf(oldest), session.today(), span);
    const at = session.now();
    const logId = session.book.coolerLogs.add(
      { coolerId: cooler.id, file: name, sha256, known, at, by: input.by },
      fresh,
    );
    session.book.audit.note({
    record: 'cooler_log', recordId: logId, act: 'add', after: { file: name, cooler: cooler.name, readings: fresh.length, known },
    at, by: input.by,
  }); // prettier-ignore
    dropUpload(session);
    return { id: logId, readings: fresh.length, known };
  },
  { long: longUpload },
);

/** Voids all readings of a file; they stay in the book. @throws ProblemError `logger.unknown`, `logger.undone` */
export const undoImport = write(v.object({ id, by }), (session, input) => {
  const log = session.book.coolerLogs.get(input.id);
  if (!log) throw new ProblemError('missing', 'logger.unknown');
  if (log.undone_at !== null)
    throw new ProblemError('conflict', 'logger.undone', { with: { name: log.file } });
  const at = session.now();
  session.book.coolerLogs.undo(log.id, at, input.by);
  session.book.audit.note({
    record: 'cooler_log', recordId: log.id, act: 'void', before: { file: log.file }, reason: 'undone', at, by: input.by,
  }); // prettier-ignore
  return { id: log.id, name: log.file };
});

/** The files of one cooler, newest first. */
export const listLogs = read(v.object({ coolerId: id }), (session, input): CoolerLogCard[] =>
  session.book.coolerLogs.of(input.coolerId).map((log) => ({
    id: log.id,
    file: log.file,
    readings: log.temperature_last - log.temperature_first + 1,
    at: log.at,
    by: log.by,
    undoneAt: log.undone_at,
  })),
);

function readFile(
  session: Session,
  bytes: Uint8Array,
  input: { coolerId: number; degrees: Degrees | null; dates: DateOrder | null },
): LoggerFile {
  const text = decodeSheet(bytes, guessEncoding(bytes));
  const rows = rowsOf(text, guessSeparator(text), Infinity);
  const columns = guessLoggerColumns(rows.map(({ cells }) => cells));
  const readings = rows.slice(columns.above).filter(({ cells }) => (cells[columns.temperature] ?? '').trim());
  const cells = (at: number) => readings.map((row) => row.cells[at] ?? '');
  const named = columns.degrees ?? degreesOf(cells(columns.temperature)[0] ?? '');
  const file: LoggerFile = {
    degrees: input.degrees ?? named ?? (session.settings.unit === 'lb' ? 'F' : 'C'),
    dates: input.dates ?? guessDateOrder(cells(columns.date)) ?? usualOrder(session),
    fresh: [],
    known: 0,
    problems: [],
  };
  const seen = new Set<string>();
  let before = -Infinity;
  for (const row of readings)
    try {
      const reading = readRow(session, row, columns, file, before);
      before = Date.parse(reading.at);
      if (seen.has(reading.at) || session.book.coolers.isRead(input.coolerId, reading.at)) file.known += 1;
      else file.fresh.push(reading);
      seen.add(reading.at);
    } catch (error) {
      file.problems.push({ row: row.number, problem: problemOf(error) });
    }
  return file;
}

function readRow(
  session: Session,
  { cells }: SheetRow,
  columns: LoggerColumns,
  { degrees, dates }: Pick<LoggerFile, 'degrees' | 'dates'>,
  before: number,
): LoggerReading {
  const cell = (at: number) => (cells[at] ?? '').trim();
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
  const typed = cell(columns.temperature);
  return {
    at: new Date(at).toISOString(),
    typed: degreesOf(typed) ? typed : `${typed} ${degrees}`,
    tenthsC: Math.round(readLoggerDegrees(typed, degrees) * 10),
  };
}

const usualOrder = (session: Session): DateOrder =>
  /-(US|PH)$/.test(session.settings.locale) ? 'month first' : 'day first';

function problemOf(error: unknown): Problem {
  if (error instanceof ProblemError) return error.problem;
  if (error instanceof ValidationError) return { kind: 'invalid', code: error.code, with: { ...error.with } };
  throw error;
}

/** Not `Math.min(...values)`: thousands of arguments exceed the limit of a call. */
const lowest = (values: readonly number[]) =>
  values.length === 0 ? null : values.reduce((a, b) => Math.min(a, b));
const highest = (values: readonly number[]) =>
  values.length === 0 ? null : values.reduce((a, b) => Math.max(a, b));
