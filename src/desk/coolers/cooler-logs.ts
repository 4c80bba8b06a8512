/** Imports files of temperature loggers: with a preview, all or nothing, no reading twice, undone as one step. */
import * as v from 'valibot';
import { degreesOf, readLoggerDegrees, type Degrees } from '../../core/sheet/logger-cells.ts';
import type { DateOrder } from '../../core/sheet/values.ts';
import { dropUpload, longUpload, tableOf } from '../session/upload.ts';
import { coolerOf } from './coolers.ts';
import { loggerSheet, problemOfRow, rowReader } from './logger-rows.ts';
import { askFar } from '../input/day-doubts.ts';
import { by, id, confirmedOf } from '../input/input.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError, type Problem } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { CoolerLogCard, LogPreview } from '../contract/contract.ts';
import { reasonKept } from '../../trade/offered.ts';

/** Maximum number of rows listed; beyond it only their number. */
const MAX_LISTED = 20;
const FIRST_SHOWN = 5;
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
    record: 'cooler_log', recordId: log.id, act: 'void', before: { file: log.file }, reason: reasonKept('undone'), at, by: input.by,
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
  const sheet = loggerSheet(session, bytes, input, Boolean);
  const { degrees, dates } = sheet;
  const file: LoggerFile = { degrees, dates, fresh: [], known: 0, problems: [] };
  const seen = new Set<string>();
  const readRow = rowReader(session, sheet);
  for (const row of sheet.rows)
    try {
      const reading = readingOf(readRow(row), degrees);
      if (seen.has(reading.at) || session.book.coolers.isRead(input.coolerId, reading.at)) file.known += 1;
      else file.fresh.push(reading);
      seen.add(reading.at);
    } catch (error) {
      file.problems.push({ row: row.number, problem: problemOfRow(error) });
    }
  return file;
}

function readingOf({ at, typed }: { at: string; typed: string }, degrees: Degrees): LoggerReading {
  return {
    at,
    typed: degreesOf(typed) ? typed : `${typed} ${degrees}`,
    tenthsC: Math.round(readLoggerDegrees(typed, degrees) * 10),
  };
}

/** Not `Math.min(...values)`: thousands of arguments exceed the limit of a call. */
const lowest = (values: readonly number[]) =>
  values.length === 0 ? null : values.reduce((a, b) => Math.min(a, b));
const highest = (values: readonly number[]) =>
  values.length === 0 ? null : values.reduce((a, b) => Math.max(a, b));
