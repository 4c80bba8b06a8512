/** Reopens what is closed (`closed.ts`), with a reason and an audit entry. */
import * as v from 'valibot';
import type { AnimalRow } from '../../book/records/animals.ts';
import { batchOf, animalOf, hasLeft } from '../animal/closed.ts';
import { restoreOwnFat } from '../animal/fat-moves.ts';
import { by, id, needed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/**
 * Opens an animal again that was picked up or disposed of: by mistake, or to put its weights right. One that was picked up
 * is ready again; one that was disposed of is where it was before. Its handing over or its disposal is voided and stays to be
 * read; own fat that left with it is on hand again. Its bill and its payments stay as they are.
 * @throws ProblemError `animal.unknown`, `animal.not-left`
 */
export const reopenAnimal = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const animal = animalOf(session, input.id);
  if (!hasLeft(animal))
    throw new ProblemError('refused', 'animal.not-left', { with: { ticket: animal.ticket } });
  const stage = animal.stage === 'released' ? 'ready' : stageBefore(session, animal);
  const said = { reason: input.reason, at: session.now(), by: input.by };
  session.book.records.voidLeaving({ animalId: animal.id, ...said });
  restoreOwnFat(session, animal, input.by);
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

/** Where an animal was before it was disposed of, as the trail says. */
function stageBefore(session: Session, { id: animalId }: Pick<AnimalRow, 'id'>): AnimalRow['stage'] {
  const kept = session.book.audit
    .of('animal', animalId)
    .findLast(({ after }) => stageIn(after) === 'disposed');
  return stageIn(kept?.before) ?? 'hanging';
}

function stageIn(json: string | null | undefined): AnimalRow['stage'] | null {
  const side = JSON.parse(json ?? 'null') as { stage?: AnimalRow['stage'] } | null;
  return side?.stage ?? null;
}
