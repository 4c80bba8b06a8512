/** Reopens closed records (`closed.ts`), with a reason and an audit entry. */
import * as v from 'valibot';
import type { AnimalRow } from '../../book/records/animals.ts';
import { batchOf, animalOf } from '../animal/closed.ts';
import { restoreOwnFat } from '../animal/fat-moves.ts';
import { by, id, needed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { restoreBelongings } from './belongings-at-pickup.ts';
import { hasLeft, type AnimalStage } from '../../trade/animal.ts';

/**
 * Reopens an animal that was picked up, disposed of or canceled. A picked-up animal becomes ready; any other returns
 * to its former stage. Its release, disposal or cancelation is voided and stays readable; own fat and belongings that
 * left with it are restored. Bills and payments do not change.
 * @throws ProblemError `animal.unknown`, `animal.not-left`, `reopen.quote-taken`
 */
export const reopenAnimal = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const animal = animalOf(session, input.id);
  if (!hasLeft(animal))
    throw new ProblemError('refused', 'animal.not-left', { with: { ticket: animal.ticket } });
  const stamp = { reason: input.reason, at: session.now(), by: input.by };
  const canceled = session.book.cancels.ofAnimal(animal.id);
  const stage = canceled ? here(canceled.stage_before) : stageBefore(session, animal);
  if (canceled) {
    refuseQuoteTaken(session, animal.id);
    session.book.cancels.void({ id: canceled.id, ...stamp });
  } else {
    const release = session.book.records.releaseOf(animal.id);
    if (release) restoreBelongings(session, animal.id, { to: release.first_to, at: release.at }, stamp);
    session.book.records.voidLeaving({ animalId: animal.id, ...stamp });
    for (const one of session.book.donations.ofAnimal(animal.id))
      if (one.whole === 1) session.book.donations.void(one.id, stamp.reason, stamp.at, stamp.by);
    for (const part of session.book.shares.pickups(animal.id)) {
      session.book.shares.voidPickup(part.id, stamp.reason, stamp.at, stamp.by);
      restoreBelongings(session, animal.id, { to: part.given_to, at: part.at }, stamp);
    }
    restoreOwnFat(session, animal, input.by);
  }
  session.book.animals.setStage(animal.id, stage, session.today());
  session.book.audit.note({
    record: 'animal', recordId: animal.id, act: 'change', before: { stage: animal.stage }, after: { stage }, ...stamp,
  }); // prettier-ignore
  return { id: animal.id, stage };
});

/** While its intake was canceled, another animal may have taken its quote. */
function refuseQuoteTaken(session: Session, animalId: number): void {
  const quote = session.book.quotes.ofAnimal(animalId);
  const other = quote && session.book.quotes.takenAs(quote.id);
  if (quote === undefined || other === undefined) return;
  const { ticket } = animalOf(session, other);
  throw new ProblemError('refused', 'reopen.quote-taken', { with: { quote: quote.name, ticket } });
}

/**
 * Reopens a finished batch, to add or correct weights.
 * @throws ProblemError `batch.unknown`, `batch.not-done`
 */
export const reopenBatch = write(v.object({ batchId: id, reason: needed(300), by }), (session, input) => {
  const batch = batchOf(session, input.batchId);
  if (batch.state === 'open')
    throw new ProblemError('refused', 'batch.not-done', { with: { batch: batch.name } });
  session.book.batches.setState(batch.id, 'open');
  session.book.audit.note({
    record: 'batch', recordId: batch.id, act: 'change', before: { state: 'done' }, after: { state: 'open' },
    reason: input.reason, at: session.now(), by: input.by,
  }); // prettier-ignore
  return { id: batch.id };
});

type Here = Exclude<AnimalStage, 'released' | 'disposed' | 'canceled'>;
const HERE: readonly AnimalStage[] = ['hanging', 'cutting', 'packing', 'ready'] satisfies Here[];
const isHere = (stage: AnimalStage): stage is Here => HERE.includes(stage);
const here = (stage: AnimalStage | null): Here => (stage !== null && isHere(stage) ? stage : 'hanging');

/** The stage of an animal before it left; before a disposal as recorded in the audit. */
function stageBefore(session: Session, { id: animalId, stage }: Pick<AnimalRow, 'id' | 'stage'>): Here {
  if (stage === 'released') return 'ready';
  const kept = session.book.audit
    .of('animal', animalId)
    .findLast(({ after }) => stageIn(after) === 'disposed');
  return here(stageIn(kept?.before));
}

function stageIn(json: string | null | undefined): AnimalRow['stage'] | null {
  const side = JSON.parse(json ?? 'null') as { stage?: AnimalRow['stage'] } | null;
  return side?.stage ?? null;
}
