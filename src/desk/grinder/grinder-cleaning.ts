/** When the grinder was taken apart and cleaned, and what went through it between held meat and that cleaning. */
import * as v from 'valibot';
import { batchOf } from '../animal/closed.ts';
import { by, id, needed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { Trouble } from '../contract/problem.ts';

/** Records that the grinder was just taken apart and cleaned, after a batch where one is named. */
export const cleaned = write(
  v.object({ batchId: v.optional(v.nullable(id), null), how: needed(300), by }),
  (room, { batchId, how, by: initials }) => {
    if (batchId !== null) batchOf(room, batchId);
    return { id: room.book.grinderCleanings.add({ batch_id: batchId, how, at: room.now(), by: initials }) };
  },
);

/** Voids a cleaning that was recorded by mistake. @throws Trouble `cleaning.unknown`, `cleaning.voided` */
export const voidCleaning = write(v.object({ cleaningId: id, reason: needed(300), by }), (room, input) => {
  const known = room.book.grinderCleanings.get(input.cleaningId);
  if (!known) throw new Trouble('missing', 'cleaning.unknown');
  if (known.voided === 1) throw new Trouble('conflict', 'cleaning.voided');
  room.book.grinderCleanings.void(known.id, input.reason, room.now(), input.by);
  return { id: known.id };
});
