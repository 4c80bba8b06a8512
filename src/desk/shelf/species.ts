/** Species of the shop's own, and supplied ones as the shop calls them. */
import * as v from 'valibot';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { isLongBook } from '../session/backup-keeping.ts';
import { codeOfName } from '../input/code-of-name.ts';
import { by, needed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { Trouble } from '../contract/problem.ts';
import type { DeskRoom } from '../session/room.ts';
import type { SpeciesOnShelf } from '../contract/contract.ts';
import { refuseMoreOfShop } from '../session/list-limits.ts';
import { speciesOnShelf } from './shelf.ts';
import { profileOf, speciesWish } from './species-wish.ts';

/**
 * Adds a species, or changes one. @throws CoreProblem `species.*`, `reading.*`; Trouble `species.like`,
 * `species.taken`, `species.too-many`, `species.primal-used` (refused), `primal.unknown`
 */
export const save = write(speciesWish, saveSpecies, {
  // Every season's summary rests on the kinds of game: in the worker they are all made anew before it answers.
  long: { when: isLongBook },
});

function saveSpecies(room: DeskRoom, input: v.InferOutput<typeof speciesWish>): SpeciesOnShelf {
  const before = input.code === undefined ? null : room.species.of(input.code);
  const codes = room.species.all.map((one) => one.code);
  const code = before?.code ?? codeOfName(input.name, codes, 'species');
  if (!before) refuseMoreOfShop('species', codes.length);
  needNameOfItsOwn(room, code, input.name);
  const profile = profileOf({ ...input, code }, before, room.settings.unit);
  if (before) refuseLosingPrimals(room, before, profile);
  room.book.ownSpecies.put(code, profile, true);
  room.book.audit.note({
    record: 'species', recordId: code, act: before ? 'change' : 'add', ...(before && { before }), after: profile,
    at: room.now(), by: input.by,
  }); // prettier-ignore
  return taken(room, code);
}

const which = v.object({ code: needed(40), by });

/** Offers a species no more; its animals stay as they are. @throws Trouble `species.unknown`, `species.last` (refused) */
export const putAway = write(which, (room, { code, by: initials }) => {
  room.species.of(code);
  if (room.species.offered.every((one) => one.code === code)) throw new Trouble('refused', 'species.last');
  return offer(room, code, false, initials);
});

/** @throws Trouble `species.unknown` */
export const bringBack = write(which, (room, { code, by: initials }) => offer(room, code, true, initials));

function offer(room: DeskRoom, code: string, offered: boolean, initials: string): SpeciesOnShelf {
  const profile = room.species.of(code);
  room.book.ownSpecies.put(code, room.species.own.has(code) ? profile : null, offered);
  room.book.audit.note({
    record: 'species', recordId: code, act: 'change', after: { offered }, at: room.now(), by: initials,
  }); // prettier-ignore
  return taken(room, code);
}

function taken(room: DeskRoom, code: string): SpeciesOnShelf {
  return speciesOnShelf(room, room.species.of(code));
}

function needNameOfItsOwn(room: DeskRoom, code: string, name: string): void {
  const other = room.species.all.find(
    (one) => one.code !== code && one.name.toLowerCase() === name.toLowerCase(),
  );
  if (other) throw new Trouble('invalid', 'species.taken', { field: 'name', with: { name: other.name } });
}

/** What animals were cut, brought or ordered by must stay, or their pages would name a piece that is none. */
function refuseLosingPrimals(room: DeskRoom, before: SpeciesProfile, after: SpeciesProfile): void {
  const kept = new Set(after.primals.map(({ code }) => code));
  const used = new Set(room.book.ownSpecies.primalsUsed(before.code));
  const lost = before.primals.find(({ code }) => used.has(code) && !kept.has(code));
  if (lost)
    throw new Trouble('refused', 'species.primal-used', { field: 'primals', with: { primal: lost.name } });
}
