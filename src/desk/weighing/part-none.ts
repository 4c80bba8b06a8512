/**
 * Statements that an animal has none of a part. An unweighed part is unknown; only a statement makes it zero, and a
 * weight of the part overrides the statement.
 */
import * as v from 'valibot';
import type { WeighingRecord } from '../../book/records/weighings.ts';
import { refuseHeldWeight } from '../animal/hold-rules.ts';
import { by, id, needed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { PartNone } from '../contract/contract.ts';
import { openAnimalOf } from '../animal/closed.ts';
import { NONE_PARTS, type NonePart } from '../../trade/weighing.ts';

export function isNonePart(part: string): part is NonePart {
  return NONE_PARTS.some((one) => one === part);
}

/** Effective statements of an animal: not voided, and not overridden by a weight. */
export function noneOf(
  session: Session,
  animalId: number,
  weighings: readonly WeighingRecord[] = session.book.weighings.ofAnimal(animalId),
): PartNone[] {
  return session.book.partNone
    .ofAnimal(animalId)
    .filter(({ part }) => weighedAs(part, weighings) === null)
    .map(({ id: noneId, part, at, by: initials }) => ({ id: noneId, part, at, by: initials }));
}

/**
 * States that the animal has none of a part.
 * @throws ProblemError `animal.unknown`, `animal.closed`, `cut.held`, `cut.positive`, `none.weighed` (refused),
 * `none.stated` (conflict)
 */
export const stateNone = write(
  v.object({ animalId: id, part: v.picklist(NONE_PARTS, 'choice.part'), by }),
  (session, { animalId, part, by: initials }) => {
    const animal = openAnimalOf(session, animalId);
    refuseHeldWeight(session, animal, 'cut');
    refuseWeighed(session, animalId, part);
    if (session.book.partNone.ofAnimal(animalId).some((stated) => stated.part === part))
      throw new ProblemError('conflict', 'none.stated', {
        field: 'part',
        with: { part, ticket: animal.ticket },
      });
    const noneId = session.book.partNone.add(animalId, part, session.now(), initials);
    return { noneId };
  },
);

/**
 * Voids a statement, with a reason: the part is unknown again. @throws ProblemError `none.unknown`, `none.voided`,
 * `animal.closed`
 */
export const voidNone = write(v.object({ noneId: id, reason: needed(300), by }), (session, input) => {
  const stated = session.book.partNone.get(input.noneId);
  if (!stated) throw new ProblemError('missing', 'none.unknown');
  if (stated.void_by !== null)
    throw new ProblemError('conflict', 'none.voided', {
      with: { by: stated.void_by, reason: stated.void_reason ?? '' },
    });
  openAnimalOf(session, stated.animal_id);
  session.book.partNone.void(stated.id, input.reason, session.now(), input.by);
  return { noneId: stated.id };
});

/** @throws ProblemError `none.weighed` if the part was weighed at the Table or, for own fat, into the grinder */
export function refuseWeighed(session: Session, animalId: number, part: NonePart): void {
  const stage = weighedAs(part, session.book.weighings.ofAnimal(animalId));
  if (stage !== null)
    throw new ProblemError('refused', 'none.weighed', { field: 'part', with: { part, stage } });
}

/** The stage at which the part was weighed, or null. */
function weighedAs(part: NonePart, weighings: readonly WeighingRecord[]): 'cut' | 'grinder' | null {
  const stages = weighings
    .filter((row) => row.part === part && row.void_at === null)
    .map(({ stage }) => stage);
  return stages.includes('cut') ? 'cut' : stages.includes('grinder') ? 'grinder' : null;
}
