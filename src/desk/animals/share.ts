/** Saves who shares an animal. Earlier splits stay readable. */
import * as v from 'valibot';
import { addHunter, hunterFields, presentHunterOf } from '../animal/hunters.ts';
import { openAnimalOf } from '../animal/closed.ts';
import { by, id, listOf, text } from '../input/input.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** A hunting party. */
const MAX_SHARERS = 12;
/** Percentages are summed in units of a ten-thousandth. */
const STEPS = 10_000;

const part = v.object({
  hunter: v.union([v.object({ id }), v.object(hunterFields)], 'hunter.needed'),
  /** Percent, pounds or pieces. */
  typed: text(20),
});

/**
 * Saves the sharers and their shares: percentages that total 100, or pounds or pieces in proportion. A single hunter
 * ends the sharing. The owner of the animal must be among the sharers.
 * @throws ProblemError `animal.closed`, `share.unreadable`, `share.percent`, `share.owner`, `share.twice`,
 * `share.taken`, `share.too-many`, `hunter.unknown`, `hunter.gone`
 */
export const save = write(
  v.object({
    animalId: id,
    basis: v.picklist(['percent', 'pounds', 'pieces'], 'choice.basis'),
    shares: v.pipe(listOf(part, MAX_SHARERS), v.minLength(1, 'list.needed')),
    reason: text(300),
    by,
  }),
  (session, { animalId, basis, shares, reason, by: initials }) => {
    const animal = openAnimalOf(session, animalId);
    refuseMoreOfAnimal(session, animal, 'split');
    if (session.book.shares.pickups(animal.id).length > 0)
      throw new ProblemError('refused', 'share.taken', { with: { ticket: animal.ticket } });
    const amounts = shares.map(({ typed }) => amountOf(typed, shares.length === 1));
    const percent = amounts.reduce((total, amount) => total + Math.round(amount * STEPS), 0) / STEPS;
    if (basis === 'percent' && shares.length > 1 && percent !== 100)
      throw new ProblemError('invalid', 'share.percent', { field: 'shares', with: { percent } });
    const hunters = shares.map(({ hunter }) =>
      'id' in hunter ? presentHunterOf(session, hunter.id).id : addHunter(session, hunter, initials),
    );
    checkHunters(session, animal, hunters);
    session.book.shares.add(
      { animalId: animal.id, basis, reason, at: session.now(), by: initials },
      shares.map(({ typed }, i) => ({
        hunterId: hunters[i] ?? 0,
        typed: typed.trim(),
        amount: amounts[i] ?? 0,
      })),
    );
    return { id: animal.id };
  },
);

/** A plain number with a point or a comma; optional for a single hunter. */
function amountOf(typed: string, alone: boolean): number {
  if (alone && typed.trim() === '') return 1;
  const read = /^\d{1,5}(?:[.,]\d{1,4})?$/.test(typed) ? Number(typed.replace(',', '.')) : Number.NaN;
  if (!(read > 0))
    throw new ProblemError('invalid', 'share.unreadable', { field: 'shares', with: { typed } });
  return read;
}

function checkHunters(
  session: Session,
  { ticket, hunter_id: ownerId, hunter }: { ticket: string; hunter_id: number; hunter: string },
  hunters: readonly number[],
): void {
  if (!hunters.includes(ownerId))
    throw new ProblemError('invalid', 'share.owner', { field: 'shares', with: { ticket, name: hunter } });
  const twice = hunters.find((one, i) => hunters.indexOf(one) !== i);
  if (twice !== undefined)
    throw new ProblemError('invalid', 'share.twice', {
      field: 'shares',
      with: { name: session.book.hunters.get(twice)?.name ?? '' },
    });
}
