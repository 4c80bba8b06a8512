import type { AnimalRow } from '../book/animals.ts';
import type { DeskRoom } from './room.ts';

/** Moves an animal on, and keeps who did it. */
export function moveOn(room: DeskRoom, animal: AnimalRow, to: AnimalRow['stage'], by: string): void {
  room.book.animals.setStage(animal.id, to, room.today());
  room.book.audit.note({
    record: 'animal',
    recordId: animal.id,
    act: 'change',
    before: { stage: animal.stage },
    after: { stage: to },
    at: room.now(),
    by,
  });
}
