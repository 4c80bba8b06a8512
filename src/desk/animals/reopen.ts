/** Reopens what is closed (`closed.ts`), with a reason and an audit entry. */
import * as v from 'valibot';
import type { AnimalRow } from '../../book/records/animals.ts';
import { batchOf, animalOf } from '../animal/closed.ts';
import { restoreOwnFat } from '../animal/fat-moves.ts';
import { by, id, needed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { takeBackBelongings } from './belongings-at-pickup.ts';
import { hasLeft, type AnimalStage } from '../../trade/animal.ts';

/**
 * Opens an animal again that was picked up, disposed of or canceled: by mistake, or to put its weights right. One that was
 * picked up is ready again; any other is where it was before. Its handing over, its disposal or its cancelation is voided and
 * stays to be read; own fat and belongings that left with it are here again. Its bill and its payments stay as they are.
 * @throws ProblemError `animal.unknown`, `animal.not-left`
 */
export const reopenAnimal = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const animal = animalOf(session, input.id);
  if (!hasLeft(animal))
    throw new ProblemError('refused', 'animal.not-left', { with: { ticket: animal.ticket } });
  const said = { reason: input.reason, at: session.now(), by: input.by };
  const canceled = session.book.cancels.ofAnimal(animal.id);
  const stage = canceled ? here(canceled.stage_before) : stageBefore(session, animal);
  if (canceled) session.book.cancels.void({ id: canceled.id, ...said });
  else {
    const release = session.book.records.releaseOf(animal.id);
    if (release) takeBackBelongings(session, animal.id, { to: release.first_to, at: release.at }, said);
    session.book.records.voidLeaving({ animalId: animal.id, ...said });
    for (const one of session.book.donations.ofAnimal(animal.id))
      if (one.whole === 1) session.book.donations.void(one.id, said.reason, said.at, said.by);
    for (const part of session.book.shares.pickups(animal.id)) {
      session.book.shares.voidPickup(part.id, said.reason, said.at, said.by);
      takeBackBelongings(session, animal.id, { to: part.given_to, at: part.at }, said);
    }
    restoreOwnFat(session, animal, input.by);
  }
  session.book.animals.setStage(animal.id, stage, session.today());
  session.book.audit.note({
    record: 'animal', recordId: animal.id, act: 'change', before: { stage: animal.stage }, after: { stage }, ...said,
  }); // prettier-ignore
  return { id: animal.id, stage };
});

/**
 * Opens a finished batch again, to weigh what is missing or to put a weight right. @throws ProblemError `batch.unknown`,
 * `batch.not-done`
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

/** Where an animal was before it left; before a disposal as the trail says. */
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
