/** The shop's coolers: how full, how cold, and what hangs where. */
import * as v from 'valibot';
import type { AnimalRow } from '../../book/records/animals.ts';
import { judgeCooler } from '../../core/cold/hanging-cooler.ts';
import { by, id, listOf, needed, text } from '../input/input.ts';
import { read, write } from '../session/procedure.ts';
import { Trouble } from '../contract/problem.ts';
import type { DeskRoom } from '../session/room.ts';
import type { CoolerCard, CoolerLook } from '../contract/contract.ts';
import { parseTemperature } from '../input/temperature.ts';
import { refuseMoreOfShop } from '../session/list-limits.ts';

/** The log is judged over the last three days; our choice. */
const HOURS_JUDGED = 72;
const MOST_PLACES = 1000;
const MINUTE_MS = 60_000;

const places = v.pipe(
  v.number('count.range'),
  v.integer('count.range'),
  v.minValue(1, 'count.range'),
  v.maxValue(MOST_PLACES, 'count.range'),
);

/** Each cooler with its log of the last three days. It warns; it does not say that meat is safe. */
export const look = read(v.object({}), (room): CoolerLook[] => {
  const now = Date.parse(room.now());
  const since = new Date(now - HOURS_JUDGED * 60 * MINUTE_MS).toISOString();
  return coolerCards(room).map((card) => {
    const readings = room.book.coolers
      .temperatures(card.id, since)
      .map(({ id: readingId, at, tenths_c: tenths, by: initials }) => ({
        id: readingId,
        at,
        tempC: tenths / 10,
        by: initials,
      }));
    const judged = judgeCooler(readings, room.settings.coolerLimitC);
    const sinceLast = card.last && Math.max(0, (now - Date.parse(card.last.at)) / MINUTE_MS);
    return {
      ...card,
      above: card.last !== null && card.last.c > room.settings.coolerLimitC,
      minutesAbove: judged.minutesAbove,
      longestGapMinutes: sinceLast === null ? null : Math.max(sinceLast, judged.longestGapMinutes),
      readings: readings.map(({ tempC: c, ...reading }) => ({ ...reading, c })),
    };
  });
});

/** A new cooler, or another name or count of places for one. @throws Trouble `cooler.unknown`, `cooler.twice`, `cooler.too-many` */
export const save = write(
  v.object({ id: v.optional(id), name: needed(60), places, by }),
  (room, { id: known, name, places: count, by: initials }) => {
    const coolers = room.book.coolers.all();
    const same = coolers.find((one) => one.name.toLowerCase() === name.toLowerCase());
    if (same && same.id !== known)
      throw new Trouble('refused', 'cooler.twice', { field: 'name', with: { cooler: same.name } });
    const before = known === undefined ? undefined : coolerOf(room, known);
    if (!before) refuseMoreOfShop('cooler', coolers.length);
    const coolerId = before ? before.id : room.book.coolers.add(name, count);
    if (before) room.book.coolers.change(before.id, name, count);
    room.book.audit.note({
      record: 'cooler', recordId: coolerId, act: before ? 'change' : 'add',
      ...(before && { before: { name: before.name, places: before.places } }),
      after: { name, places: count }, at: room.now(), by: initials,
    }); // prettier-ignore
    return { id: coolerId };
  },
);

/** Takes an empty cooler out of use. @throws Trouble `cooler.unknown`, `cooler.in-use` */
export const putAway = write(v.object({ id, by }), (room, input) => {
  const cooler = coolerOf(room, input.id);
  if (cooler.hanging > 0)
    throw new Trouble('refused', 'cooler.in-use', { with: { cooler: cooler.name, count: cooler.hanging } });
  room.book.coolers.putAway(cooler.id);
  room.book.audit.note({
    record: 'cooler',
    recordId: cooler.id,
    act: 'void',
    at: room.now(),
    by: input.by,
  });
  return { id: cooler.id };
});

/** A temperature as read off the cooler now. @throws CoreProblem `temperature.*`; Trouble `cooler.unknown` */
export const log = write(v.object({ coolerId: id, typed: text(20), by }), (room, input) => {
  const cooler = coolerOf(room, input.coolerId);
  const celsius = parseTemperature(input.typed, room.settings.unit === 'lb' ? 'F' : 'C', 'typed');
  room.book.coolers.log(cooler.id, input.typed, Math.round(celsius * 10), room.now(), input.by);
  return { id: cooler.id, c: celsius };
});

/**
 * Takes a temperature back that was mistyped or read off another cooler; it stays in the book with the reason.
 * @throws Trouble `temperature.unknown`, `temperature.voided`
 */
export const takeBack = write(v.object({ readingId: id, reason: needed(300), by }), (room, input) => {
  const old = room.book.coolers.temperature(input.readingId);
  if (!old) throw new Trouble('missing', 'temperature.unknown', { field: 'readingId' });
  if (old.void_by !== null)
    throw new Trouble('conflict', 'temperature.voided', { with: { by: old.void_by } });
  room.book.coolers.takeBack(old.id, input.reason, room.now(), input.by);
  room.book.audit.note({
    record: 'cooler_temperature',
    recordId: old.id,
    act: 'void',
    before: { typed: old.typed, at: old.at },
    reason: input.reason,
    at: room.now(),
    by: input.by,
  });
  return { id: old.id };
});

/**
 * Hangs animals in a cooler, at a place if one is named. A full cooler is said (`hanging` against `places`), not
 * refused: the cutter stands there with the animal on the shoulder.
 * @throws Trouble `cooler.unknown`, `animal.unknown`, `animal.not-hanging`
 */
export const hang = write(
  v.object({
    ids: v.pipe(listOf(id, 500), v.minLength(1, 'id.needed')),
    coolerId: id,
    place: text(40),
    by,
  }),
  (room, input) => {
    const cooler = coolerOf(room, input.coolerId);
    for (const animalId of new Set(input.ids)) {
      const animal = room.book.animals.get(animalId);
      if (!animal) throw new Trouble('missing', 'animal.unknown', { field: 'ids' });
      if (!HANGS.includes(animal.stage))
        throw new Trouble('refused', 'animal.not-hanging', { field: 'ids', with: { ticket: animal.ticket } });
      room.book.coolers.hang(animal.id, cooler.id, input.place, room.now(), input.by);
    }
    const { name, places: count, hanging } = coolerOf(room, cooler.id);
    return { cooler: name, places: count, hanging };
  },
);

/** While it hangs, or lies on the table with the rest of it still on the hook. */
const HANGS: readonly AnimalRow['stage'][] = ['hanging', 'cutting'];

export function coolerCards(room: DeskRoom): CoolerCard[] {
  return room.book.coolers.all().map(({ id: coolerId, name, places: count, hanging, tenths_c, at }) => ({
    id: coolerId,
    name,
    places: count,
    hanging,
    last: tenths_c === null || at === null ? null : { c: tenths_c / 10, at },
  }));
}

/** Cooler and place of an animal as one short text; null while nobody said, or once it is cut. @example 'Cold room 1, hook 12' */
export function whereOf(room: DeskRoom, animal: Pick<AnimalRow, 'id' | 'stage'>): string | null {
  const stay = HANGS.includes(animal.stage) ? room.book.coolers.stay(animal.id) : undefined;
  if (!stay) return null;
  return stay.place ? `${stay.cooler}, ${stay.place}` : stay.cooler;
}

export function coolerOf(room: DeskRoom, coolerId: number): CoolerCard {
  const found = coolerCards(room).find((one) => one.id === coolerId);
  if (!found) throw new Trouble('missing', 'cooler.unknown', { field: 'coolerId' });
  return found;
}
