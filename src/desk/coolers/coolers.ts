/** The shop's coolers: occupancy, temperature, and the animals in each. */
import * as v from 'valibot';
import type { AnimalRow } from '../../book/records/animals.ts';
import { summariseCoolerLog } from '../../core/cold/cooler-log.ts';
import { by, id, listOf, needed, text } from '../input/input.ts';
import { earlier, momentOf } from '../session/earlier.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { CoolerCard, CoolerStatus } from '../contract/contract.ts';
import { parseTemperature } from '../input/temperature.ts';
import { refuseMoreOfShop } from '../session/list-limits.ts';

/** The log is evaluated over the last three days. Our choice. */
const HOURS_JUDGED = 72;
const MAX_PLACES = 1000;
const MINUTE_MS = 60_000;

const places = v.pipe(
  v.number('count.range'),
  v.integer('count.range'),
  v.minValue(1, 'count.range'),
  v.maxValue(MAX_PLACES, 'count.range'),
);

/** Each cooler with its log of the last three days. It warns; it does not state that meat is safe. */
export const list = read(v.object({}), (session): CoolerStatus[] => {
  const now = Date.parse(session.now());
  const since = new Date(now - HOURS_JUDGED * 60 * MINUTE_MS).toISOString();
  return coolerCards(session).map((card) => {
    const readings = session.book.coolers
      .temperatures(card.id, since)
      .map(({ id: readingId, at, tenths_c: tenths, by: initials }) => ({
        id: readingId,
        at,
        tempC: tenths / 10,
        by: initials,
      }));
    const judged = summariseCoolerLog(readings, session.settings.coolerLimitC);
    const sinceLast = card.last && Math.max(0, (now - Date.parse(card.last.at)) / MINUTE_MS);
    return {
      ...card,
      above: card.last !== null && card.last.c > session.settings.coolerLimitC,
      minutesAbove: judged.minutesAbove,
      longestGapMinutes: sinceLast === null ? null : Math.max(sinceLast, judged.longestGapMinutes),
      readings: readings.map(({ tempC: c, ...reading }) => ({ ...reading, c })),
    };
  });
});

/**
 * Adds a cooler, or changes its name or number of places. @throws ProblemError `cooler.unknown`, `cooler.twice`,
 * `cooler.too-many`
 */
export const save = write(
  v.object({ id: v.optional(id), name: needed(60), places, by }),
  (session, { id: known, name, places: count, by: initials }) => {
    const coolers = session.book.coolers.all();
    refuseTwice(coolers, name, known);
    const before = known === undefined ? undefined : coolerOf(session, known);
    if (!before) refuseMoreOfShop('cooler', coolers.length);
    const coolerId = before ? before.id : session.book.coolers.add(name, count);
    if (before) session.book.coolers.change(before.id, name, count);
    session.book.audit.note({
      record: 'cooler', recordId: coolerId, act: before ? 'change' : 'add',
      ...(before && { before: { name: before.name, places: before.places } }),
      after: { name, places: count }, at: session.now(), by: initials,
    }); // prettier-ignore
    return { id: coolerId };
  },
);

/** Names of coolers in use are unique. @param known the cooler that is renamed */
function refuseTwice(coolers: readonly { id: number; name: string }[], name: string, known?: number): void {
  const same = coolers.find((one) => one.name.toLowerCase() === name.toLowerCase());
  if (same && same.id !== known)
    throw new ProblemError('refused', 'cooler.twice', { field: 'name', with: { cooler: same.name } });
}

function noteCooler(session: Session, recordId: number, act: 'change' | 'void', initials: string): void {
  session.book.audit.note({ record: 'cooler', recordId, act, at: session.now(), by: initials });
}

/** Archives an empty cooler. @throws ProblemError `cooler.unknown`, `cooler.in-use` */
export const archive = write(v.object({ id, by }), (session, input) => {
  const cooler = coolerOf(session, input.id);
  if (cooler.hanging > 0)
    throw new ProblemError('refused', 'cooler.in-use', {
      with: { cooler: cooler.name, count: cooler.hanging },
    });
  session.book.coolers.archive(cooler.id);
  noteCooler(session, cooler.id, 'void', input.by);
  return { id: cooler.id };
});

/** Restores an archived cooler. @throws ProblemError `cooler.unknown`, `cooler.twice`, `cooler.too-many` */
export const restore = write(v.object({ id, by }), (session, input) => {
  const coolers = session.book.coolers.all();
  const cooler = session.book.coolers.named(input.id);
  if (!cooler || coolers.some((one) => one.id === cooler.id))
    throw new ProblemError('missing', 'cooler.unknown', { field: 'id' });
  refuseTwice(coolers, cooler.name);
  refuseMoreOfShop('cooler', coolers.length);
  session.book.coolers.restore(cooler.id);
  noteCooler(session, cooler.id, 'change', input.by);
  return { id: cooler.id };
});

/**
 * Logs a cooler's temperature, read now or, at a station that the desk could not hear, earlier.
 * @throws ValidationError `temperature.*`; ProblemError `cooler.unknown`, `temperature.future` (invalid)
 */
export const logTemperature = write(
  v.object({ coolerId: id, typed: text(20), earlier, by }),
  (session, input) => {
    const cooler = coolerOf(session, input.coolerId);
    const celsius = parseTemperature(input.typed, session.settings.unit === 'lb' ? 'F' : 'C', 'typed');
    const at = input.earlier ? momentOf(session, input.earlier) : session.now();
    if (at > session.now()) throw new ProblemError('invalid', 'temperature.future', { field: 'earlier' });
    session.book.coolers.log(cooler.id, input.typed, Math.round(celsius * 10), at, input.by);
    return { id: cooler.id, c: celsius };
  },
);

/**
 * Voids a mistaken temperature. It stays in the book with the reason.
 * @throws ProblemError `temperature.unknown`, `temperature.voided`
 */
export const voidTemperature = write(
  v.object({ readingId: id, reason: needed(300), by }),
  (session, input) => {
    const old = session.book.coolers.temperature(input.readingId);
    if (!old) throw new ProblemError('missing', 'temperature.unknown', { field: 'readingId' });
    if (old.void_by !== null)
      throw new ProblemError('conflict', 'temperature.voided', { with: { by: old.void_by } });
    session.book.coolers.voidTemperature(old.id, input.reason, session.now(), input.by);
    session.book.audit.note({
      record: 'cooler_temperature',
      recordId: old.id,
      act: 'void',
      before: { typed: old.typed, at: old.at },
      reason: input.reason,
      at: session.now(),
      by: input.by,
    });
    return { id: old.id };
  },
);

/**
 * Undoes the voiding of a temperature: the same reading is added again at its time. The voided row stays.
 * @throws ProblemError `temperature.unknown`, `temperature.not-voided`
 */
export const restoreTemperature = write(v.object({ readingId: id, by }), (session, input) => {
  const old = session.book.coolers.temperature(input.readingId);
  if (!old) throw new ProblemError('missing', 'temperature.unknown', { field: 'readingId' });
  if (old.void_by === null || session.book.coolers.isRead(old.cooler_id, old.at))
    throw new ProblemError('conflict', 'temperature.not-voided');
  session.book.coolers.log(old.cooler_id, old.typed, old.tenths_c, old.at, input.by);
  return { id: old.cooler_id };
});

/**
 * Hangs animals in a cooler, at a place if one is given. A full cooler is reported (`hanging` against `places`), not
 * refused: the cutter is already carrying the animal.
 * @throws ProblemError `cooler.unknown`, `animal.unknown`, `animal.not-hanging`
 */
export const hang = write(
  v.object({
    ids: v.pipe(listOf(id, 500), v.minLength(1, 'id.needed')),
    coolerId: id,
    place: text(40),
    by,
  }),
  (session, input) => {
    const cooler = coolerOf(session, input.coolerId);
    for (const animalId of new Set(input.ids)) {
      const animal = session.book.animals.get(animalId);
      if (!animal) throw new ProblemError('missing', 'animal.unknown', { field: 'ids' });
      if (!HANGS.includes(animal.stage))
        throw new ProblemError('refused', 'animal.not-hanging', {
          field: 'ids',
          with: { ticket: animal.ticket },
        });
      session.book.coolers.hang(animal.id, cooler.id, input.place, session.now(), input.by);
    }
    const { name, places: count, hanging } = coolerOf(session, cooler.id);
    return { cooler: name, places: count, hanging };
  },
);

/** It hangs, or is being cut with the rest still on the hook. */
const HANGS: readonly AnimalRow['stage'][] = ['hanging', 'cutting'];

export function coolerCards(session: Session): CoolerCard[] {
  return session.book.coolers.all().map(({ id: coolerId, name, places: count, hanging, tenths_c, at }) => ({
    id: coolerId,
    name,
    places: count,
    hanging,
    last: tenths_c === null || at === null ? null : { c: tenths_c / 10, at },
  }));
}

type Stay = { cooler: string | null; place: string | null };

/** Name of an animal's cooler, and its place there; null if unknown, or after cutting. */
export function stayOf(session: Session, animal: Pick<AnimalRow, 'id' | 'stage'>): Stay {
  const stay = HANGS.includes(animal.stage) ? session.book.coolers.stay(animal.id) : undefined;
  return { cooler: stay?.cooler ?? null, place: stay?.place || null };
}

/** Both as one short text. @example 'Cold room 1, hook 12' */
export function whereOf(session: Session, animal: Pick<AnimalRow, 'id' | 'stage'>): string | null {
  const { cooler, place } = stayOf(session, animal);
  return [cooler, place].filter(Boolean).join(', ') || null;
}

export function coolerOf(session: Session, coolerId: number): CoolerCard {
  const found = coolerCards(session).find((one) => one.id === coolerId);
  if (!found) throw new ProblemError('missing', 'cooler.unknown', { field: 'coolerId' });
  return found;
}
