/** Edits to whom and when an animal was released. The first entry stays in the book. */
import type { AnimalRow } from '../../book/records/animals.ts';
import { compareDates } from '../../core/values/dates.ts';
import { askFar, LEFT_DAYS, refuseFuture, type Confirmed } from '../input/day-doubts.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/**
 * @returns whether anything changed
 * @throws ProblemError `edit.still-here` if it was not released; `date.future`, `edit.left-before-received`;
 * `date.far-ahead` (conflict: pass `confirmed`)
 */
export function editRelease(
  session: Session,
  animal: AnimalRow,
  wanted: { givenTo?: string | undefined; releasedOn?: string | undefined },
  input: { reason: string; by: string; confirmed: Confirmed },
): boolean {
  const { givenTo, releasedOn } = wanted;
  if (givenTo === undefined && releasedOn === undefined) return false;
  const known = session.book.records.releaseOf(animal.id);
  if (!known)
    throw new ProblemError('refused', 'edit.still-here', {
      field: 'givenTo',
      with: { ticket: animal.ticket },
    });
  const before = { given_to: known.given_to, released_on: known.released_on };
  const after = { given_to: givenTo ?? known.given_to, released_on: releasedOn ?? known.released_on };
  const changed = (['given_to', 'released_on'] as const).filter((key) => before[key] !== after[key]);
  if (changed.length === 0) return false;
  if (changed.includes('released_on'))
    checkLeft(session, animal, after.released_on, input.confirmed, 'releasedOn');
  const stamp = { at: session.now(), by: input.by };
  session.book.records.correctRelease({
    releaseId: known.id,
    to: after.given_to,
    on: after.released_on,
    ...stamp,
  });
  const only = (row: typeof before) => Object.fromEntries(changed.map((key) => [key, row[key]]));
  session.book.audit.note({
    record: 'animal',
    recordId: animal.id,
    act: 'change',
    before: only(before),
    after: only(after),
    reason: input.reason,
    ...stamp,
  });
  return true;
}

/**
 * Checks a release date: not in the future, and not before the animal was received.
 * @throws ProblemError `date.future`, `edit.left-before-received`; `date.far-ahead` (conflict: pass `confirmed`)
 */
export function checkLeft(
  session: Session,
  { ticket, received_on }: AnimalRow,
  on: string,
  confirmed: Confirmed,
  field: string,
): void {
  refuseFuture(on, session.today(), field);
  if (compareDates(on, received_on) < 0)
    throw new ProblemError('invalid', 'edit.left-before-received', { field, with: { ticket } });
  askFar(confirmed, field, on, received_on, { ahead: LEFT_DAYS });
}
