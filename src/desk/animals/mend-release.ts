/** Putting right whom an animal was handed to and when; what was written first stays in the book. */
import type { AnimalRow } from '../../book/records/animals.ts';
import { compareDates } from '../../core/values/dates.ts';
import { askFar, LEFT_DAYS, refuseFuture, type Sure } from '../input/day-doubts.ts';
import { Trouble } from '../contract/problem.ts';
import type { DeskRoom } from '../session/room.ts';

/**
 * @returns whether anything was said otherwise than before
 * @throws Trouble `mend.still-here` where it was not handed over; `date.future`, `mend.left-before-received`;
 * `date.far-ahead` (conflict: pass `sure`)
 */
export function mendRelease(
  room: DeskRoom,
  animal: AnimalRow,
  wanted: { givenTo?: string | undefined; releasedOn?: string | undefined },
  said: { reason: string; by: string; sure: Sure },
): boolean {
  const { givenTo, releasedOn } = wanted;
  if (givenTo === undefined && releasedOn === undefined) return false;
  const known = room.book.records.releaseOf(animal.id);
  if (!known)
    throw new Trouble('refused', 'mend.still-here', { field: 'givenTo', with: { ticket: animal.ticket } });
  const before = { given_to: known.given_to, released_on: known.released_on };
  const after = { given_to: givenTo ?? known.given_to, released_on: releasedOn ?? known.released_on };
  const changed = (['given_to', 'released_on'] as const).filter((key) => before[key] !== after[key]);
  if (changed.length === 0) return false;
  if (changed.includes('released_on')) checkLeft(room, animal, after.released_on, said.sure, 'releasedOn');
  const stamp = { at: room.now(), by: said.by };
  room.book.records.mendRelease({ releaseId: known.id, to: after.given_to, on: after.released_on, ...stamp });
  const only = (row: typeof before) => Object.fromEntries(changed.map((key) => [key, row[key]]));
  room.book.audit.note({
    record: 'animal',
    recordId: animal.id,
    act: 'change',
    before: only(before),
    after: only(after),
    reason: said.reason,
    ...stamp,
  });
  return true;
}

/**
 * The day on which an animal was handed over: not to come, and not before it came in.
 * @throws Trouble `date.future`, `mend.left-before-received`; `date.far-ahead` (conflict: pass `sure`)
 */
export function checkLeft(
  room: DeskRoom,
  { ticket, received_on }: AnimalRow,
  on: string,
  sure: Sure,
  field: string,
): void {
  refuseFuture(on, room.today(), field);
  if (compareDates(on, received_on) < 0)
    throw new Trouble('invalid', 'mend.left-before-received', { field, with: { ticket } });
  askFar(sure, field, on, received_on, { ahead: LEFT_DAYS });
}
