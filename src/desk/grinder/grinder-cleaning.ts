/** Cleanings of the disassembled grinder, and what went through it between held meat and a cleaning. */
import * as v from 'valibot';
import { batchOf } from '../animal/closed.ts';
import { by, date, id, needed } from '../input/input.ts';
import { momentsOf } from '../../core/values/local-moment.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** In the shop's time zone. */
const timeOfDay = v.pipe(
  v.string('time.unreadable'),
  v.maxLength(5, 'time.unreadable'),
  v.regex(/^([01]?\d|2[0-3]):[0-5]\d$/, 'time.unreadable'),
);

/**
 * Records that the grinder was disassembled and cleaned, now or earlier; after a batch if one is named.
 * @throws ProblemError `batch.unknown`, `cleaning.future`
 */
export const saveCleaning = write(
  v.object({
    batchId: v.optional(v.nullable(id), null),
    how: needed(300),
    earlier: v.optional(v.nullable(v.object({ on: date, time: timeOfDay })), null),
    by,
  }),
  (session, { batchId, how, earlier, by: initials }) => {
    if (batchId !== null) batchOf(session, batchId);
    return {
      id: session.book.grinderCleanings.add({
        batchId,
        how,
        at: session.now(),
        by: initials,
        cleanedAt: earlier && momentOf(session, earlier),
      }),
    };
  },
);

/** Voids a cleaning recorded by mistake. @throws ProblemError `cleaning.unknown`, `cleaning.voided` */
export const voidCleaning = write(v.object({ cleaningId: id, reason: needed(300), by }), (session, input) => {
  const known = session.book.grinderCleanings.get(input.cleaningId);
  if (!known) throw new ProblemError('missing', 'cleaning.unknown');
  if (known.voided === 1) throw new ProblemError('conflict', 'cleaning.voided');
  session.book.grinderCleanings.void(known.id, input.reason, session.now(), input.by);
  return { id: known.id };
});

function momentOf(session: Session, { on, time }: { on: string; time: string }): string {
  const [hours = 0, minutes = 0] = time.split(':').map(Number);
  const [moment = 0] = momentsOf(on, (hours * 60 + minutes) * 60, session.settings.zone);
  const at = new Date(moment).toISOString();
  if (at > session.now()) throw new ProblemError('invalid', 'cleaning.future', { field: 'earlier' });
  return at;
}
