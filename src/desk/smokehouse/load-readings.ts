/** Single readings of a log: shown as they came, left out with a reason, or counted again. */
import * as v from 'valibot';
import { MAX_READINGS } from '../../core/heat/log.ts';
import { ProblemError } from '../contract/problem.ts';
import type { ReadingsPage } from '../contract/contract.ts';
import { by, id, needed } from '../input/input.ts';
import { read, write } from '../session/procedure.ts';
import { openLoadOf } from './load-record.ts';

const PAGE = 500;

/** Leaves a reading out of the judgement. It stays in the log. @throws ProblemError `load.log-unknown`, `load.closed`, `load.excluded` */
export const exclude = write(v.object({ readingId: id, reason: needed(300), by }), (session, input) => {
  const row = session.book.loadLogs.reading(input.readingId);
  if (!row) throw new ProblemError('missing', 'load.log-unknown', { field: 'readingId' });
  openLoadOf(session, row.load_id);
  if (row.excluded !== null) throw new ProblemError('conflict', 'load.excluded');
  const exclusionId = session.book.loadLogs.exclude(row.id, input.reason, session.now(), input.by);
  return { id: row.id, exclusionId };
});

/** Lets a reading count again. @throws ProblemError `load.log-unknown`, `load.closed`, `load.included` */
export const include = write(v.object({ readingId: id, reason: needed(300), by }), (session, input) => {
  const row = session.book.loadLogs.reading(input.readingId);
  if (!row) throw new ProblemError('missing', 'load.log-unknown', { field: 'readingId' });
  openLoadOf(session, row.load_id);
  if (row.exclusion_id === null) throw new ProblemError('conflict', 'load.included');
  session.book.loadLogs.include(row.exclusion_id, input.reason, session.now(), input.by);
  return { id: row.id };
});

/** Readings of a log in the order of the file. @throws ProblemError `load.log-unknown` */
export const readings = read(
  v.object({
    logId: id,
    from: v.optional(
      v.pipe(
        v.number('count.range'),
        v.integer('count.range'),
        v.minValue(0, 'count.range'),
        v.maxValue(MAX_READINGS, 'count.range'),
      ),
      0,
    ),
  }),
  (session, { logId, from }): ReadingsPage => {
    if (!session.book.loadLogs.get(logId))
      throw new ProblemError('missing', 'load.log-unknown', { field: 'logId' });
    return {
      count: session.book.loadLogs.count(logId),
      from,
      readings: session.book.loadLogs.page(logId, from, PAGE).map((row) => ({
        id: row.id,
        readAt: row.read_at,
        typed: row.typed,
        value: row.value,
        excluded:
          row.exclusion_id === null || row.excluded === null
            ? null
            : { exclusionId: row.exclusion_id, reason: row.excluded },
      })),
    };
  },
);
