import * as v from 'valibot';
import { by, id, needed, text } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { Trouble } from '../contract/problem.ts';
import { animalOf } from '../animal/closed.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';

/** Keeps an animal back; also one that was picked up, for whoever shares its grind. @throws Trouble `animal.closed`, `hold.too-many` */
export const hold = write(v.object({ id, reason: needed(200), sample: text(80), by }), (room, input) => {
  const animal = animalOf(room, input.id);
  if (animal.stage === 'disposed')
    throw new Trouble('refused', 'animal.closed', { with: { ticket: animal.ticket, stage: animal.stage } });
  refuseMoreOfAnimal(room, animal, 'hold');
  room.book.animals.addHold(animal.id, input.reason, input.sample, room.now(), input.by);
  return { id: animal.id };
});

/**
 * Lifts a hold that no test result ends, with the reason (entered for the wrong animal, passed by an inspector …).
 * What a laboratory reported is entered with `animals.testResult`. @throws Trouble `hold.none`, `hold.positive`
 */
export const endHold = write(v.object({ id, reason: needed(500), by }), (room, input) => {
  const animal = animalOf(room, input.id);
  const open = room.book.animals.hold(animal.id);
  if (!open) throw new Trouble('missing', 'hold.none', { with: { ticket: animal.ticket } });
  if (open.positive === 1) throw new Trouble('refused', 'hold.positive', { with: { ticket: animal.ticket } });
  room.book.animals.endHold(open.id, 'withdrawn', input.reason, room.now(), input.by);
  return { id: animal.id };
});
