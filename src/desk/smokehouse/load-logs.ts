/** Logs of a load: files of loggers and typed readings, each reading as it came. Nothing is changed; a reading may be left out with a reason. */
import * as v from 'valibot';
import { checkLog, MAX_READINGS } from '../../core/heat/log.ts';
import { ProblemError } from '../contract/problem.ts';
import type { LoadLogPreview } from '../contract/contract.ts';
import { by, id, needed } from '../input/input.ts';
import { earlier, momentOf } from '../session/earlier.ts';
import { read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { dropUpload, longUpload, tableOf } from '../session/upload.ts';
import { timeTable } from '../supplied/smokehouse.ts';
import { inDegrees, readLog } from './load-file.ts';
import { loadOf, openLoadOf } from './load-record.ts';

const MAX_LISTED = 20;
const FIRST_SHOWN = 5;
/** Logs of one load, voided ones too. */
const MAX_LOGS = 60;

const degrees = v.picklist(['F', 'C'], 'choice.degrees');
const which = {
  id,
  upload: id,
  degrees: v.optional(v.nullable(degrees), null),
  dates: v.optional(v.nullable(v.picklist(['day first', 'month first'], 'choice.dates')), null),
};
const probe = needed(40);
const phase = v.picklist(['cook', 'cooling', 'both'], 'choice.smokehouse');

/** A file with all that is odd about it. Writes nothing. @throws ProblemError `load.unknown`; ValidationError `sheet.*`, `logger.columns` */
export const previewLog = read(
  v.object(which),
  (session, input): LoadLogPreview => {
    const load = loadOf(session, input.id);
    const { name, bytes, sha256 } = tableOf(session, input.upload);
    const { readings, problems, degrees: scale } = readLog(session, bytes, input);
    const times = readings.map(({ readAt }) => readAt).toSorted();
    const log = {
      probe: '',
      degrees: scale,
      readings: readings.map(({ readAt, value }) => ({ at: Date.parse(readAt), value })),
    };
    const { points, faults } = checkLog(log, timeTable().comeUp.toF);
    const found = Map.groupBy(faults, ({ code }) => code);
    const values = points.map(({ f }) => f);
    return {
      name,
      degrees: scale,
      readings: readings.length,
      from: times[0] ?? null,
      to: times.at(-1) ?? null,
      lowestF: values.length === 0 ? null : values.reduce((a, b) => Math.min(a, b)),
      highestF: values.length === 0 ? null : values.reduce((a, b) => Math.max(a, b)),
      first: readings.slice(0, FIRST_SHOWN).map(({ readAt, typed, value }) => ({ at: readAt, typed, value })),
      faults: [...found].map(([code, of]) => ({
        code,
        count: of.length,
        at: new Date(of[0]?.at ?? 0).toISOString(),
      })),
      problems: problems
        .slice(0, MAX_LISTED)
        .map(({ row, problem }) => ({ row, code: problem.code, with: problem.with ?? {} })),
      problemCount: problems.length,
      known: isKnown(session, load.id, sha256),
    };
  },
  false,
  longUpload,
);

/**
 * Stores a file's readings as they stand, those at fault too, all or nothing.
 * @throws ProblemError `load.closed`, `sheet.problems`, `load.file-known`, `log.empty`, `load.logs` (refused); ValidationError
 *   `log.too-long`, `sheet.*`
 */
export const importLog = write(
  v.object({ ...which, probe, phase, by }),
  (session, input) => {
    const load = openLoadOf(session, input.id);
    const { name, bytes, sha256 } = tableOf(session, input.upload);
    const { readings, problems, degrees: scale } = readLog(session, bytes, input);
    const [first] = problems;
    if (first)
      throw new ProblemError('refused', 'sheet.problems', {
        with: { count: problems.length, row: first.row },
      });
    if (readings.length === 0) throw new ProblemError('refused', 'log.empty');
    if (isKnown(session, load.id, sha256))
      throw new ProblemError('refused', 'load.file-known', { with: { name } });
    refuseMoreReadings(readings.length);
    const at = session.now();
    const logId = addLog(session, load.id, {
      phase: input.phase,
      probe: input.probe,
      degrees: scale,
      source: 'file',
      file: name,
      sha256,
      at,
      by: input.by,
    });
    session.book.loadLogs.addReadings(logId, readings, at, input.by);
    dropUpload(session);
    return { id: logId, readings: readings.length };
  },
  { long: longUpload },
);

/**
 * One reading of a thermometer, typed or read, now or earlier. Readings of one probe go into one log.
 * @throws ProblemError `load.closed`, `load.future`, `temperature.unreadable` (invalid), `load.logs` (refused)
 */
export const reading = write(
  v.object({
    id,
    probe,
    phase,
    degrees,
    typed: needed(20),
    earlier,
    source: v.optional(v.picklist(['typed', 'thermometer'], 'choice.source'), 'typed'),
    by,
  }),
  (session, input) => {
    const load = openLoadOf(session, input.id);
    const value = inDegrees(input.typed, input.degrees);
    if (value === null)
      throw new ProblemError('invalid', 'temperature.unreadable', {
        field: 'typed',
        with: { typed: input.typed },
      });
    const at = session.now();
    const readAt = input.earlier ? momentOf(session, input.earlier) : at;
    if (readAt > at) throw new ProblemError('invalid', 'load.future', { field: 'earlier' });
    const known = session.book.loadLogs
      .ofLoad(load.id)
      .find(
        (log) =>
          log.void_reason === null &&
          log.source === input.source &&
          log.probe === input.probe &&
          log.phase === input.phase &&
          log.degrees === input.degrees,
      );
    const logId =
      known?.id ??
      addLog(session, load.id, {
        phase: input.phase,
        probe: input.probe,
        degrees: input.degrees,
        source: input.source,
        file: '',
        sha256: '',
        at,
        by: input.by,
      });
    refuseMoreReadings(session.book.loadLogs.count(logId) + 1);
    session.book.loadLogs.addReadings(logId, [{ readAt, typed: input.typed, value }], at, input.by);
    return { id: logId };
  },
);

/** Voids a log with all of its readings. @throws ProblemError `load.log-unknown`, `load.closed`, `made.weight-voided` */
export const voidLog = write(v.object({ logId: id, reason: needed(300), by }), (session, input) => {
  const log = session.book.loadLogs.get(input.logId);
  if (!log) throw new ProblemError('missing', 'load.log-unknown', { field: 'logId' });
  openLoadOf(session, log.load_id);
  if (log.void_reason !== null) throw new ProblemError('conflict', 'made.weight-voided');
  session.book.loadLogs.void(log.id, input.reason, session.now(), input.by);
  return { id: log.id };
});

type NewLog = Parameters<Session['book']['loadLogs']['add']>[0];

/** @throws ProblemError `load.logs` */
function addLog(session: Session, loadId: number, log: Omit<NewLog, 'loadId'>): number {
  if (session.book.loadLogs.ofLoad(loadId).length >= MAX_LOGS)
    throw new ProblemError('refused', 'load.logs', { with: { count: MAX_LOGS } });
  return session.book.loadLogs.add({ ...log, loadId });
}

function refuseMoreReadings(count: number): void {
  if (count > MAX_READINGS)
    throw new ProblemError('refused', 'log.too-long', { with: { most: MAX_READINGS } });
}

const isKnown = (session: Session, loadId: number, sha256: string): boolean =>
  session.book.loadLogs
    .ofLoad(loadId)
    .some((log) => log.void_reason === null && log.source === 'file' && log.sha256 === sha256);
