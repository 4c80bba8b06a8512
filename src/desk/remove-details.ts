import * as v from 'valibot';
import { yearsBefore } from '../core/dates.ts';
import { hunterOf } from './hunters.ts';
import { by, id, needed } from './input.ts';
import { write } from './procedure.ts';
import { Trouble } from './problem.ts';

/**
 * Takes a hunter's name, numbers and addresses out of the book once they need not be kept any more. Weights, dates and
 * money stay. The audit says that it was done, by whom and why, and not what was there.
 * @throws Trouble `hunter.removed` (conflict), `hunter.animal-here`, `hunter.still-kept` (refused)
 */
export const removeDetails = write(v.object({ id, reason: needed(300), by }), (room, input) => {
  const hunter = hunterOf(room, input.id);
  const { removedDetails } = room.book;
  if (removedDetails.removedAt(hunter.id) !== null) throw new Trouble('conflict', 'hunter.removed');
  const leaving = removedDetails.leaving(hunter.id);
  if (leaving && leaving.open > 0)
    throw new Trouble('refused', 'hunter.animal-here', { with: { name: hunter.name } });
  const years = room.settings.retentionYears;
  const last = leaving?.last ?? null;
  if (last !== null && last >= yearsBefore(room.today(), years))
    throw new Trouble('refused', 'hunter.still-kept', { with: { name: hunter.name, years, date: last } });
  const at = room.now();
  removedDetails.remove(hunter.id, at);
  room.book.audit.note({
    record: 'hunter', recordId: hunter.id, act: 'void', after: { details: 'removed' }, reason: input.reason, at, by: input.by,
  }); // prettier-ignore
  return { id: hunter.id };
});
