/** Changes the pieces that an animal came in as. */
import type { AnimalRow, RecordFields } from '../../book/records/animals.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

type Pieces = readonly { primal: string; count: number }[];

/** Text for the audit: '2 haunch, 1 shoulder', by primal codes. */
const describe = (pieces: Pieces): string =>
  pieces.map(({ primal, count }) => `${count} ${primal}`).join(', ');

/**
 * The new pieces of the record and the audit text of both states; null if nothing changes. A whole animal has none.
 * @throws ProblemError `primal.unknown` (invalid), `edit.pieces-weighed` if a weighed piece is not among the new ones
 */
export function piecesChange(
  session: Session,
  animal: AnimalRow,
  { brought, species }: Pick<RecordFields, 'brought' | 'species'>,
  wanted: Pieces | undefined,
): { parts: Pieces; before: { parts: string }; after: { parts: string } } | null {
  const known = session.book.animals.parts(animal.id);
  const pieces = isWholeCarcass(brought) ? [] : (wanted ?? known);
  const parts = pieces.toSorted((a, b) => (a.primal < b.primal ? -1 : 1));
  if (describe(parts) === describe(known)) return null;
  const of = session.species.of(species);
  const unknown = parts.find(({ primal }) => !of.primals.some(({ code }) => code === primal));
  if (unknown)
    throw new ProblemError('invalid', 'primal.unknown', { field: 'parts', with: { primal: unknown.primal } });
  refuseWeighed(session, animal, parts);
  return { parts, before: { parts: describe(known) }, after: { parts: describe(parts) } };
}

/** An empty list means that all of the animal came in, so every weight of a piece is valid. */
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
