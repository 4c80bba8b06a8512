/** Actions taken for an animal affected by a positive result: called, kept, discarded or returned. */
import * as v from 'valibot';
import { affectsOf } from '../animal/affected.ts';
import { animalOf } from '../animal/closed.ts';
import { ProblemError } from '../contract/problem.ts';
import { by, id, needed, text } from '../input/input.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import { write } from '../session/procedure.ts';
import { AFFECTED_DEEDS } from '../../trade/animal.ts';

/**
 * Records an action. It lifts no restriction; only a corrected result does.
 * @throws ProblemError `animal.unknown`, `affected.not`, `affected.too-many`
 */
export const noteAffected = write(
  v.object({
    id,
    /** The animal that tested positive. */
    sourceId: id,
    what: v.picklist(AFFECTED_DEEDS, 'choice.deed'),
    note: text(300),
    by,
  }),
  (session, { id: animalId, sourceId, ...entry }) => {
    const animal = animalOf(session, animalId);
    const source = animalOf(session, sourceId);
    const affects = affectsOf(session, source);
    if (![...(affects?.animals ?? []), ...(affects?.untraced ?? [])].some((one) => one.id === animal.id))
      throw new ProblemError('refused', 'affected.not', {
        with: { ticket: animal.ticket, other: source.ticket },
      });
    refuseMoreOfAnimal(session, animal, 'affectedNote');
    return { id: session.book.affectedNotes.add({ animalId, sourceId, ...entry, at: session.now() }) };
  },
);

/** Voids a note entered by mistake. @throws ProblemError `affected.unknown`, `affected.voided` */
export const voidAffected = write(v.object({ noteId: id, reason: needed(300), by }), (session, input) => {
  const known = session.book.affectedNotes.get(input.noteId);
  if (!known) throw new ProblemError('missing', 'affected.unknown');
  if (known.voided === 1) throw new ProblemError('conflict', 'affected.voided');
  session.book.affectedNotes.void({ ...input, at: session.now() });
  return { id: known.id };
});
