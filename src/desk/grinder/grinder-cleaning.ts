/** Cleanings of the disassembled grinder, and what went through it between held meat and a cleaning. */
import * as v from 'valibot';
import { batchOf } from '../animal/closed.ts';
import { by, id, needed } from '../input/input.ts';
import { earlier, momentOf } from '../session/earlier.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/**
 * Records that the grinder was disassembled and cleaned, now or earlier; after a batch if one is named.
 * @throws ProblemError `batch.unknown`, `cleaning.future`
 */
export const saveCleaning = write(
  v.object({
    batchId: v.optional(v.nullable(id), null),
    how: needed(300),
    earlier,
    by,
  }),
  (session, { batchId, how, earlier: before, by: initials }) => {
    if (batchId !== null) batchOf(session, batchId);
    return {
      id: session.book.grinderCleanings.add({
        batchId,
        how,
        at: session.now(),
        by: initials,
        cleanedAt: before && pastMoment(session, before),
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

function pastMoment(session: Session, of: { on: string; time: string }): string {
  const at = momentOf(session, of);
  if (at > session.now()) throw new ProblemError('invalid', 'cleaning.future', { field: 'earlier' });
  return at;
}
