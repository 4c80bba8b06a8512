/** Invented hunters, some of whom come back. */
import type { Draw } from './draw.ts';
import { PEOPLE } from './invention.ts';

export interface Person {
  card: {
    name: string;
    phone: string;
    email: string;
    address: string;
    licence: string;
    refusesPooling: boolean;
  };
  /** Id in the book; null before the first intake. */
  id: number | null;
  lastSeason: number;
}

/** All hunters so far: `next` returns one for another animal of a season. */
export function openTown() {
  const people: Person[] = [];
  const names = new Set<string>();

  function invent(draw: Draw, season: number): Person {
    let name: string;
    do name = `${draw.pick(PEOPLE.first)} ${draw.pick(PEOPLE.last)}`;
    while (names.has(name));
    names.add(name);
    const [first = '', last = ''] = name.toLowerCase().normalize('NFKD').replace(/\p{M}/gu, '').split(' ');
    const number = String(people.length % 100).padStart(2, '0');
    const area = PEOPLE.areaCodes[Math.floor(people.length / 100) % PEOPLE.areaCodes.length] ?? '';
    const person: Person = {
      card: {
        name,
        phone: `(${area}) 555-01${number}`,
        email: draw.maybe(PEOPLE.withoutMail) ? '' : `${first}.${last}@${draw.pick(PEOPLE.mail)}`,
        address: draw.maybe(PEOPLE.withoutAddress)
          ? ''
          : `${draw.whole(11, 989)} ${draw.pick(PEOPLE.roads)}, ${draw.pick(PEOPLE.towns)}`,
        licence: draw.maybe(PEOPLE.withoutLicence) ? '' : `H${draw.whole(204_000, 987_000)}`,
        refusesPooling: draw.maybe(PEOPLE.refusePooling),
      },
      id: null,
      lastSeason: season,
    };
    people.push(person);
    return person;
  }

  return {
    invent,
    next(draw: Draw, season: number, returning: number): Person {
      const now = people.filter(({ lastSeason }) => lastSeason === season);
      if (draw.maybe(0.12) && now.length > 0) return draw.pick(now.slice(-25));
      const earlier = people.filter(({ lastSeason }) => lastSeason < season);
      if (!draw.maybe(returning) || earlier.length === 0) return invent(draw, season);
      const back = draw.pick(earlier);
      back.lastSeason = season;
      return back;
    },
  };
}

export type Town = ReturnType<typeof openTown>;
