/**
 * A second hanging weight is either the same carcass weighed again, or another side or piece. Only the shop knows
 * which.
 */
import type { AnimalRow } from '../../book/records/animals.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { onlyTyped, saidOf } from './said.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

/**
 * Hanging weights are summed, since sides and quarters are weighed one by one. A carcass weighed again later must not
 * count twice, so a further weight needs confirmation: always for a carcass; for pieces once all that came in were
 * weighed, or on a later day. Confirming adds the weight; the same carcass weighed again is a correction instead.
 * @throws ProblemError `weight.hung-again` (conflict)
 */
export function askHungAgain(session: Session, animal: AnimalRow): void {
  const weights = session.book.weighings
    .ofAnimal(animal.id)
    .filter(({ stage, void_at }) => stage === 'hanging' && void_at === null);
  const last = weights.at(-1);
  if (!last) return;
  const inPieces = !isWholeCarcass(animal.brought);
  if (inPieces) {
    const came = session.book.animals.parts(animal.id).reduce((total, { count }) => total + count, 0);
    const moreExpected = came === 0 || weights.length < came;
    if (moreExpected && session.dayOf(last.at) === session.today()) return;
  }
  throw new ProblemError('conflict', 'weight.hung-again', {
    field: 'typed',
    with: {
      grams: weights.reduce((total, { grams }) => total + grams, 0),
      ...saidOf(session, onlyTyped(session, animal, 'hanging')),
      count: weights.length,
      part: inPieces ? 'pieces' : 'carcass',
    },
  });
}
