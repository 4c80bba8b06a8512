/** What came with an animal, in the form that windows and papers list. */
import type { BelongingRecord } from '../../book/records/of-animal/belongings.ts';
import type { Belonging } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';

/** Belongings of an animal in order of entry, without voided ones. */
export function belongingsOf(session: Session, animalId: number): Belonging[] {
  return session.book.belongings.ofAnimal(animalId).map(belonging);
}

/** Belongings that are still in the shop. */
export function belongingsHere(session: Session, animalId: number): Belonging[] {
  return belongingsOf(session, animalId).filter(({ end }) => end === null);
}

function belonging(row: BelongingRecord): Belonging {
  const { id, kind, tag, place, evidence, note, at, by, went } = row;
  return {
    id,
    kind,
    tag,
    place,
    evidence: evidence === 1,
    note,
    at,
    by,
    end: went && {
      went,
      name: row.went_to ?? '',
      receipt: row.receipt ?? '',
      on: row.ended_on ?? '',
      note: row.end_note ?? '',
      by: row.end_by ?? '',
    },
  };
}
