import type { AnimalRow } from '../../book/records/animals.ts';
import { refusePooledWithHeld } from './hold-rules.ts';
import type { DeskRoom } from '../session/room.ts';

/**
 * Moves an animal on, and keeps who did it. Every way to `ready` and `released` leads through here, so that none
 * passes by the meat of a held animal. @throws Trouble `pooled.held`, `pooled.positive`
 */
export function moveOn(room: DeskRoom, animal: AnimalRow, to: AnimalRow['stage'], by: string): void {
  if (to === 'ready' || to === 'released') refusePooledWithHeld(room, animal);
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
