import * as v from 'valibot';
import { daysBetween } from '../../core/values/dates.ts';
import { dueOf } from '../bills/due.ts';
import { by, id, listOf, needed, optionalDate, confirmedOf, text } from '../input/input.ts';
import { checkLeft } from './edit-release.ts';
import { answeredOf, readyDoubts } from '../animal/ready-check.ts';
import { heldWith } from '../animal/hold-rules.ts';
import { packagesOf } from '../animal/packages.ts';
import { donatedGrams, withoutDonated } from '../animal/parts-here.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { animalOf } from '../animal/closed.ts';
import { noticeDue, noticesOf } from './notices.ts';
import { pickupShares } from './share-pickup.ts';
import { leave, refuseToGo, refuseUnpaid } from './going.ts';
import { belongingsHere } from '../animal/belongings.ts';
import { askBelongings, handOverBelongings } from './belongings-at-pickup.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';

/** Animals waiting for pickup, longest first, with calls to the hunter, newest first. */
export const get = read(v.object({}), (session) =>
  session.book.animals
    .inShop()
    .filter(({ stage }) => stage === 'ready')
    .map((row) => {
      const packed = packagesOf(session, row, session.book.weighings.ofAnimal(row.id));
      const packages = withoutDonated(packed, donatedGrams(session, row.id));
      const readyDays = Math.max(0, daysBetween(row.ready_on ?? session.today(), session.today()));
      const notices = noticesOf(session, row.id);
      return {
        id: row.id,
        ticket: row.ticket,
        hunter: row.hunter,
        phone: row.phone,
        speciesName: session.species.of(row.species).name,
        readyDays,
        late: readyDays > session.settings.pickupLimitDays,
        calls: session.book.callNotes
          .ofAnimal(row.id)
          .map(({ id: note, text: content, at, by: who }) => ({ id: note, text: content, at, by: who })),
        hold: row.hold,
        waitsFor: heldWith(session, row.id),
        doubts: readyDoubts(session, row),
        answered: answeredOf(session, row.id),
        packages: packages.reduce((total, { count }) => total + count, 0),
        grams: packages.reduce((total, { grams }) => total + grams, 0),
        ...dueOf(session, row.id),
        handedBefore: handedBefore(session, row.id),
        belongings: belongingsHere(session, row.id),
        notices,
        noticeDue: noticeDue(session.settings, readyDays, notices),
        unprocessed: session.book.leaving.unprocessed(row.id) !== undefined,
        shares: pickupShares(session, row.id, packed),
        places: [...new Set(packages.flatMap(({ places }) => places))],
      };
    })
    .sort((a, b) => b.readyDays - a.readyDays || a.id - b.id),
);

/** To whom and when it was released before it was reopened, or null. */
function handedBefore(session: Session, animalId: number): { to: string; on: string } | null {
  const last = session.book.records.lastRelease(animalId);
  return last ? { to: last.given_to, on: last.released_on } : null;
}

/**
 * Saves a note about a call to the hunter. @throws ProblemError `animal.unknown`, `note.not-ready`, `note.too-many`
 */
export const saveNote = write(v.object({ id, text: needed(500), by }), (session, input) => {
  const animal = animalOf(session, input.id);
  if (animal.stage !== 'ready')
    throw new ProblemError('refused', 'note.not-ready', { with: { ticket: animal.ticket } });
  refuseMoreOfAnimal(session, animal, 'note');
  const note = { animalId: animal.id, text: input.text, at: session.now(), by: input.by };
  return { id: session.book.callNotes.add(note) };
});

/**
 * Releases an animal, today or on an earlier day. If it is unpaid, or unbilled in a shop with its own prices, the
 * initials of the responsible person are required. `animals.reopen` undoes it.
 * @throws ProblemError `release.held`, `pooled.held`, `pooled.positive`, `pooled.through-grinder`,
 * `release.not-ready`, `release.no-bill`, `release.unpaid`, `belonging.unknown`, `date.future`,
 * `edit.left-before-received`; `release.belongings`, `date.far-ahead` (conflict: pass `confirmed`)
 */
export const release = write(
  v.object({
    id,
    to: needed(200),
    on: optionalDate,
    note: text(500),
    unpaidBy: text(6),
    /** Belongings that are handed over with it. */
    belongings: v.optional(listOf(id, 100), []),
    confirmed: confirmedOf,
    by,
  }),
  (session, input) => {
    const animal = animalOf(session, input.id);
    refuseToGo(session, animal);
    if (input.unpaidBy === '') refuseUnpaid(session, animal, dueOf(session, animal.id).dueMinor);
    askBelongings(session, animal, input);
    const on = input.on ?? session.today();
    if (input.on !== null) checkLeft(session, animal, on, input.confirmed, 'on');
    const pickup = { to: input.to, on, at: session.now(), by: input.by };
    handOverBelongings(session, input.belongings, pickup);
    leave(session, animal, { ...pickup, note: input.note, unpaidBy: input.unpaidBy || null });
    return { id: animal.id };
  },
);
