/** When the grinder was taken apart and cleaned, and what went through it between held meat and that cleaning. */
import * as v from 'valibot';
import { batchOf } from '../animal/closed.ts';
import { by, id, needed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';

/** Records that the grinder was just taken apart and cleaned, after a batch where one is named. */
export const saveCleaning = write(
  v.object({ batchId: v.optional(v.nullable(id), null), how: needed(300), by }),
  (session, { batchId, how, by: initials }) => {
    if (batchId !== null) batchOf(session, batchId);
    return {
      id: session.book.grinderCleanings.add({
        batchId,
        how,
        at: session.now(),
        by: initials,
        cleanedAt: null,
      }),
    };
  },
);

/** Voids a cleaning that was recorded by mistake. @throws ProblemError `cleaning.unknown`, `cleaning.voided` */
export const voidCleaning = write(v.object({ cleaningId: id, reason: needed(300), by }), (session, input) => {
  const known = session.book.grinderCleanings.get(input.cleaningId);
  if (!known) throw new ProblemError('missing', 'cleaning.unknown');
  if (known.voided === 1) throw new ProblemError('conflict', 'cleaning.voided');
  session.book.grinderCleanings.void(known.id, input.reason, session.now(), input.by);
  return { id: known.id };
});
