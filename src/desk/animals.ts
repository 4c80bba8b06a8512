import * as v from 'valibot';
import { nameKey } from '../book/hunters.ts';
import { daysBetween } from '../core/dates.ts';
import { hangState } from '../core/hanging.ts';
import { animalPage } from './animal-page.ts';
import { trimWaiting } from './blend-sources.ts';
import { whereOf } from './coolers.ts';
import { by, id, instructions, needed, text } from './input.ts';
import { read, write } from './procedure.ts';
import { Trouble } from './problem.ts';
import type { Hook, RailLook } from './shapes.ts';
import { animalOf } from './weigh.ts';

/** One animal by its ticket or its id. */
export const open = read(v.object({ id: v.optional(id), ticket: v.optional(needed(20)) }), (room, input) => {
  const animal =
    input.ticket === undefined ? animalOf(room, input.id ?? 0) : room.book.animals.byTicket(input.ticket);
  if (!animal)
    throw new Trouble('missing', 'ticket.unknown', { field: 'ticket', with: { ticket: input.ticket ?? '' } });
  return animalPage(room, animal);
});

/** By ticket, by running number (newest season first) or by part of the hunter's name. */
export const find = read(v.object({ text: text(200) }), (room, input) =>
  room.book.animals.find(input.text, nameKey(input.text)).map((animal) => ({
    id: animal.id,
    ticket: animal.ticket,
    hunter: animal.hunter,
    speciesName: room.species.of(animal.species).name,
    stage: animal.stage,
  })),
);

export const setStage = write(
  v.object({ id, stage: v.picklist(['hanging', 'cutting', 'packing', 'ready'], 'choice.stage'), by }),
  (room, input) => {
    const animal = animalOf(room, input.id);
    if (animal.stage === 'released' || animal.stage === 'disposed')
      throw new Trouble('refused', 'animal.closed', { with: { ticket: animal.ticket } });
    room.book.animals.setStage(animal.id, input.stage, room.today());
    room.book.audit.note({
      record: 'animal',
      recordId: animal.id,
      act: 'change',
      before: { stage: animal.stage },
      after: { stage: input.stage },
      at: room.now(),
      by: input.by,
    });
    room.relearn();
    return { id: animal.id };
  },
);

/** Weighed in detail or quickly from now on; what was weighed stays. */
export const setDetail = write(
  v.object({ id, detail: v.picklist(['detailed', 'quick'], 'choice.detail'), by }),
  (room, input) => {
    const animal = animalOf(room, input.id);
    if (animal.stage === 'released' || animal.stage === 'disposed')
      throw new Trouble('refused', 'animal.closed', { with: { ticket: animal.ticket } });
    room.book.animals.setDetail(animal.id, input.detail);
    room.book.audit.note({
      record: 'animal',
      recordId: animal.id,
      act: 'change',
      before: { detail: animal.detail },
      after: { detail: input.detail },
      at: room.now(),
      by: input.by,
    });
    return { id: animal.id };
  },
);

/** New instructions; the earlier ones stay to be read. */
export const instruct = write(v.object({ id, instructions, by }), (room, input) => {
  room.book.animals.instruct(animalOf(room, input.id).id, input.instructions, room.now(), input.by);
  return { id: input.id };
});

export const hold = write(v.object({ id, reason: needed(200), sample: text(80), by }), (room, input) => {
  room.book.animals.addHold(animalOf(room, input.id).id, input.reason, input.sample, room.now(), input.by);
  return { id: input.id };
});

export const endHold = write(
  v.object({
    id,
    outcome: v.picklist(['cleared', 'positive', 'withdrawn'], 'choice.outcome'),
    note: text(500),
    by,
  }),
  (room, input) => {
    const animal = animalOf(room, input.id);
    const open = room.book.animals.hold(animal.id);
    if (!open) throw new Trouble('missing', 'hold.none', { with: { ticket: animal.ticket } });
    room.book.animals.endHold(open.id, input.outcome, input.note, room.now(), input.by);
    return { id: animal.id };
  },
);

/** What hangs, what is ready, and how much of each. */
export const rail = read(v.object({}), (room): RailLook => {
  const { hangingReadyDays: readyDays, hangingLimitDays: limitDays } = room.settings;
  const rows = room.book.animals.inShop();
  const today = room.today();
  const since = (date: string): number => Math.max(0, daysBetween(date, today));
  const at = (...stages: string[]) => rows.filter(({ stage }) => stages.includes(stage));
  const hooks: Hook[] = at('hanging', 'cutting', 'packing').map((row) => ({
    id: row.id,
    ticket: row.ticket,
    species: row.species,
    speciesName: room.species.of(row.species).name,
    hunter: row.hunter,
    brought: row.brought,
    stage: row.stage,
    days: since(row.received_on),
    state: hangState(since(row.received_on), { readyDays, limitDays }),
    hold: row.hold,
    grams: row.grams,
    promisedOn: row.promised_on,
    where: whereOf(room, row.id),
  }));
  return {
    hooks,
    next: [],
    ready: at('ready').map((row) => ({
      id: row.id,
      ticket: row.ticket,
      hunter: row.hunter,
      speciesName: room.species.of(row.species).name,
      days: since(row.ready_on ?? today),
      hold: row.hold,
    })),
    counts: {
      hanging: at('hanging').length,
      cutting: at('cutting').length,
      packing: at('packing').length,
      ready: at('ready').length,
      hangingGrams: at('hanging').reduce((total, { grams }) => total + (grams ?? 0), 0),
    },
    limitDays,
    trimWaiting: trimWaiting(room).length,
  };
});
