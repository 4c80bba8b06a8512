/** Hunters who want their meat by itself: it goes into no batch with another animal's. */
import type { AnimalRow } from '../../book/records/animals.ts';
import { Trouble } from '../contract/problem.ts';
import type { DeskRoom } from '../session/room.ts';

/** @throws Trouble `trim.twice` (invalid), `animal.unknown`, `batch.no-pooling` (refused) */
export function refusePooled(room: DeskRoom, ids: readonly number[]): void {
  if (new Set(ids).size !== ids.length) throw new Trouble('invalid', 'trim.twice', { field: 'animals' });
  if (ids.length < 2) return;
  const refusing = ids.flatMap((id) => room.book.animals.get(id) ?? []).find((one) => refuses(room, one));
  if (refusing)
    throw new Trouble('refused', 'batch.no-pooling', {
      field: 'animals',
      with: { hunter: refusing.hunter, ticket: refusing.ticket },
    });
}

/**
 * As `refusePooled`, for a weight going into a batch that may have begun before the hunter said so, or before its owner
 * was put right. @throws Trouble `batch.no-pooling`
 */
export function refusePooledInBatch(room: DeskRoom, batchId: number, animalId: number | null): void {
  if (animalId === null) return;
  const weighed = room.book.weighings.ofBatch(batchId).filter(({ void_at }) => void_at === null);
  const goneIn = room.book.batches
    .animals(batchId)
    .filter(({ id }) => id === animalId || weighed.some(({ animal_id }) => animal_id === id));
  refusePooled(
    room,
    goneIn.map(({ id }) => id),
  );
}

function refuses(room: DeskRoom, { hunter_id: hunterId }: AnimalRow): boolean {
  return room.book.hunters.get(hunterId)?.refuses_pooling === 1;
}
