import * as v from 'valibot';
import type { HunterRow } from '../book/hunters.ts';
import { by, id, needed, text } from './input.ts';
import { read, write } from './procedure.ts';
import { Trouble } from './problem.ts';
import type { DeskRoom } from './room.ts';
import type { HunterCard } from './shapes.ts';

export const hunterFields = {
  name: needed(200),
  phone: text(60),
  email: text(200),
  address: text(500),
  licence: text(80),
  refusesPooling: v.optional(v.boolean(), false),
};

/** Hunters by part of a name or of a phone number; nothing typed gives the newest. */
export const find = read(v.object({ text: text(200) }), (room, input) =>
  room.book.hunters.find(input.text).map(hunterCard),
);

export const save = write(
  v.object({ id: v.optional(id), ...hunterFields, by }),
  (room, { id: hunterId, by: initials, ...fields }) => {
    if (hunterId === undefined) return hunterCard(hunterOf(room, room.book.hunters.add(fields, room.now())));
    const before = hunterOf(room, hunterId);
    room.book.hunters.change(hunterId, fields);
    room.book.audit.note({
    record: 'hunter', recordId: hunterId, act: 'change', before, after: fields, at: room.now(), by: initials,
  }); // prettier-ignore
    return hunterCard(hunterOf(room, hunterId));
  },
);

/** @throws Trouble `hunter.unknown` */
export function hunterOf(room: DeskRoom, hunterId: number): HunterRow {
  const found = room.book.hunters.get(hunterId);
  if (!found) throw new Trouble('missing', 'hunter.unknown', { field: 'hunter' });
  return found;
}

export function hunterCard(row: HunterRow): HunterCard {
  const { refuses_pooling, last_ticket, ...rest } = row;
  return {
    id: rest.id,
    name: rest.name,
    phone: rest.phone,
    email: rest.email,
    address: rest.address,
    licence: rest.licence,
    animals: rest.animals,
    refusesPooling: refuses_pooling === 1,
    lastTicket: last_ticket,
  };
}
