/** Which pieces an animal came in as, said anew. */
import type { AnimalRow, RecordFields } from '../../book/records/animals.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

type Pieces = readonly { primal: string; count: number }[];

/** What stands in the trail: '2 haunch, 1 shoulder', by codes of the species. */
const said = (pieces: Pieces): string => pieces.map(({ primal, count }) => `${count} ${primal}`).join(', ');

/**
 * The pieces that the record says from now on, with what the trail says of both; null where nothing changes. An animal that
 * is whole after all has none.
 * @throws ProblemError `primal.unknown` (invalid), `edit.pieces-weighed` where a piece was weighed that did not come then
 */
export function piecesChange(
  session: Session,
  animal: AnimalRow,
  { brought, species }: Pick<RecordFields, 'brought' | 'species'>,
  wanted: Pieces | undefined,
): { parts: Pieces; before: { parts: string }; after: { parts: string } } | null {
  const known = session.book.animals.parts(animal.id);
  const asked = isWholeCarcass(brought) ? [] : (wanted ?? known);
  const parts = asked.toSorted((a, b) => (a.primal < b.primal ? -1 : 1));
  if (said(parts) === said(known)) return null;
  const of = session.species.of(species);
  const strange = parts.find(({ primal }) => !of.primals.some(({ code }) => code === primal));
  if (strange)
    throw new ProblemError('invalid', 'primal.unknown', { field: 'parts', with: { primal: strange.primal } });
  refuseWeighed(session, animal, parts);
  return { parts, before: { parts: said(known) }, after: { parts: said(parts) } };
}

/** With no pieces named all of the animal came, so every weight of a piece stands. */
function refuseWeighed(session: Session, animal: AnimalRow, parts: Pieces): void {
  if (parts.length === 0) return;
  const lost = session.book.weighings
    .ofAnimal(animal.id)
    .find(
      ({ primal, void_at }) =>
        primal !== null && void_at === null && !parts.some((one) => one.primal === primal),
    );
  if (lost)
    throw new ProblemError('refused', 'edit.pieces-weighed', {
      field: 'parts',
      with: { ticket: animal.ticket, primal: lost.primal ?? '' },
    });
}
