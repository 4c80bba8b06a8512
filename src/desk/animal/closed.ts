/**
 * Closed records do not change until somebody reopens them with a reason. The rules:
 *
 * - An animal that was picked up, disposed of or canceled takes no weights, no "none" statements, no new instructions
 *   and no other way of weighing. None of its weights is corrected or voided, at the Table or in a batch. Its trim
 *   and own fat go into no batch, and its own fat is not counted or discarded. Its record (owner, dates, recipient)
 *   can always be edited: `animals.edit`. Holds and test results are accepted after it left, because a result may
 *   come late and concerns everybody who shares its grind.
 * - A finished batch takes no weights and no passes, and none of its weights is corrected or voided. A fat test is
 *   accepted, since the laboratory may answer after the batch is finished.
 * - `animals.reopen` and `grinder.reopen` open them again (`reopen.ts`).
 */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { BatchRecord } from '../../book/records/batches.ts';
import type { WeighingRecord } from '../../book/records/weighings.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { hasLeft } from '../../trade/animal.ts';

/** @throws ProblemError `animal.unknown` */
export function animalOf(session: Session, id: number): AnimalRow {
  const found = session.book.animals.get(id);
  if (!found) throw new ProblemError('missing', 'animal.unknown', { field: 'id' });
  return found;
}

/** The animal, if it has not left. @throws ProblemError `animal.unknown`, `animal.closed` */
export function openAnimalOf(session: Session, id: number): AnimalRow {
  const animal = animalOf(session, id);
  if (hasLeft(animal)) throw closed(animal);
  return animal;
}

/** Refuses an animal at one of these stages. @throws ProblemError `animal.closed` */
export function refuseStage(
  animal: Pick<AnimalRow, 'ticket' | 'stage'>,
  ...stages: readonly AnimalRow['stage'][]
): void {
  if (stages.includes(animal.stage)) throw closed(animal);
}

const closed = ({ ticket, stage }: Pick<AnimalRow, 'ticket' | 'stage'>): ProblemError =>
  new ProblemError('refused', 'animal.closed', { with: { ticket, stage } });

/** @throws ProblemError `batch.unknown` */
export function batchOf(session: Session, id: number): BatchRecord {
  const found = session.book.batches.get(id);
  if (!found) throw new ProblemError('missing', 'batch.unknown', { field: 'batchId' });
  return found;
}

/** The batch, if it is not finished. @throws ProblemError `batch.unknown`, `batch.done` */
export function openBatchOf(session: Session, id: number): BatchRecord {
  const batch = batchOf(session, id);
  if (batch.state !== 'open')
    throw new ProblemError('refused', 'batch.done', { with: { batch: batch.name } });
  return batch;
}

/**
 * Refuses to change a weight of an animal that has left or of a finished batch. @throws ProblemError `animal.closed`,
 * `batch.done`
 */
export function refuseClosedWeight(
  session: Session,
  { animal_id: animalId, batch_id: batchId }: Pick<WeighingRecord, 'animal_id' | 'batch_id'>,
): void {
  if (batchId !== null) openBatchOf(session, batchId);
  if (animalId !== null) openAnimalOf(session, animalId);
}
