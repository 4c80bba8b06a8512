import type { DeskRoom } from './room.ts';
import type { CoolerCard } from './shapes.ts';

/** The shop's coolers, how full and how cold they are. */
export function coolerCards(room: DeskRoom): CoolerCard[] {
  return room.book.coolers.all().map(({ id, name, places, hanging, tenths_c, at }) => ({
    id,
    name,
    places,
    hanging,
    last: tenths_c === null || at === null ? null : { c: tenths_c / 10, at },
  }));
}

/** Cooler and place of an animal as one short text, or null. @example 'Cold room 1, hook 12' */
export function whereOf(room: DeskRoom, animalId: number): string | null {
  const stay = room.book.coolers.stay(animalId);
  if (!stay) return null;
  return stay.place ? `${stay.cooler}, ${stay.place}` : stay.cooler;
}
