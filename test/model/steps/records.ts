/** Hunters and the records of animals: written, put right, removed. */
import { act, because, type Step } from '../step.ts';
import { daysFrom, isInShop, seasonOf, type Shop } from '../shop.ts';
import type { Animal, Hunter } from '../state.ts';
import { dayNear, REASONS } from '../typed.ts';
import { PIECES } from '../kinds.ts';
import { nextTicket } from './intake.ts';
import { NOBODY } from './nobody.ts';
import { ordersOf } from './orders.ts';
import { markOf } from '../shop.ts';

const NO_HUNTER: Hunter = { id: 9999, name: '', refusesPooling: false, removed: false };

export const saveHunter: Step = {
  weight: 2,
  calls: ['hunters.save'],
  draw(shop, dice) {
    const known = dice.onceIn(2) ? dice.mostly(shop.book.hunters, [NO_HUNTER]) : undefined;
    const name = dice.pick(['Gus Marlow', 'Li Wei', 'D\u2019Arcy Quinn', '']);
    const refusesPooling = dice.onceIn(3);
    return act('hunters.save', { ...(known && { id: known.id }), name, phone: '555-0199', refusesPooling, reason: 'asked', by: 'RO' }, {
      refuse: because([known === NO_HUNTER, 'hunter.unknown'], [known?.removed === true, 'hunter.gone'], [name === '', 'text.needed']),
      done({ id }) {
        const found = shop.book.hunters.find((one) => one.id === id);
        if (found) Object.assign(found, { name, refusesPooling });
        else shop.book.hunters.push({ id, name, refusesPooling, removed: false });
      },
    }); // prettier-ignore
  },
};

export const removeDetails: Step = {
  weight: 1,
  calls: ['hunters.removeDetails'],
  draw(shop, dice) {
    const hunter = dice.mostly(shop.book.hunters.filter(({ removed }) => !removed), [...shop.book.hunters, NO_HUNTER]); // prettier-ignore
    if (!hunter) return null;
    const animals = shop.book.animals.filter((one) => one.hunter === hunter.id);
    const shared = shop.book.shares
      .filter(({ hunters }) => hunters.includes(hunter.id))
      .map((one) => one.animal);
    const all = shop.book.animals.filter((one) => one.hunter === hunter.id || shared.includes(one.id));
    const left = all.map((one) => one.releasedOn ?? one.disposedOn ?? one.receivedOn).toSorted().at(-1); // prettier-ignore
    const keptFrom = yearsBack(shop.today, shop.book.settings.retentionYears);
    return act('hunters.removeDetails', { id: hunter.id, reason: 'asked for by letter' }, {
      refuse: because(
        [hunter === NO_HUNTER, 'hunter.unknown'],
        [hunter.removed, 'hunter.removed'],
        [all.some(isInShop), 'hunter.animal-here'],
        [left !== undefined && left >= keptFrom, 'hunter.still-kept'],
      ),
      done() {
        // A tag leads to whom it was issued, and a note may say anything.
        Object.assign(hunter, { removed: true, name: null });
        for (const animal of animals) animal.tag = '';
        const ids = animals.map(({ id }) => id);
        shop.book.notes = shop.book.notes.map((one) => (ids.includes(one.animal) ? { ...one, text: 'removed' } : one));
      },
      then: async (driver) => driver.trail.lookAnew(),
    }); // prettier-ignore
  },
};

function yearsBack(day: string, years: number): string {
  const there = `${Number(day.slice(0, 4)) - years}${day.slice(4)}`;
  return there.endsWith('02-29') && new Date(`${there}T00:00:00Z`).getUTCDate() !== 29
    ? `${there.slice(0, 8)}28`
    : there;
}

/** A record may be put right at any time, also after the animal left. */
export const mend: Step = {
  weight: 4,
  calls: ['animals.edit'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.book.animals, [NOBODY]);
    if (!animal) return null;
    const confirmed = dice.onceIn(2);
    const what = dice.pick(['tag', 'received', 'owner', 'species', 'release'] as const);
    const { refuse, changes, done } = MENDS[what](shop, animal, dice, confirmed);
    return act('animals.edit', { id: animal.id, changes, reason: dice.pick(REASONS), confirmed, by: 'EH' }, {
      refuse: [...because([animal === NOBODY, 'animal.unknown']), ...refuse],
      done: ({ ticket }) => done(ticket),
    }); // prettier-ignore
  },
};

interface Mend {
  changes: object;
  refuse: string[];
  done: (ticket: string) => void;
}
type Mending = (shop: Shop, animal: Animal, dice: Parameters<typeof dayNear>[0], confirmed: boolean) => Mend;

const MENDS: Record<'tag' | 'received' | 'owner' | 'species' | 'release', Mending> = {
  tag(_, animal, dice) {
    const tag = dice.pick(['E-1', 'E-2', '']);
    return { changes: { tag }, refuse: because([tag === animal.tag, 'edit.nothing']), done: () => void (animal.tag = tag) };
  },
  owner(shop, animal, dice) {
    const owner = dice.mostly(shop.book.hunters, [NO_HUNTER]) ?? NO_HUNTER;
    const refuse = because([owner === NO_HUNTER, 'hunter.unknown'], [owner.removed, 'hunter.gone'], [owner.id === animal.hunter, 'edit.nothing']);
    return { changes: { owner: { id: owner.id } }, refuse, done: () => void (animal.hunter = owner.id) };
  },
  species(_, animal, dice) {
    const species = dice.pick(['elk', 'white-tail', 'mule-deer', 'unicorn']);
    const used = [...animal.ordered, ...animal.pieces.map(({ primal }) => primal)];
    const lost = used.some((primal) => !PIECES.some((one) => one === primal));
    const refuse = because(
      [species === animal.species, 'edit.nothing'],
      [species === 'unicorn', 'species.unknown'],
      [lost, 'edit.pieces'],
    );
    return { changes: { species }, refuse, done: () => void (animal.species = species) };
  },
  release(shop, animal, dice, confirmed) {
    const on = dayNear(dice, shop.today, -20, 1);
    const changes = { releasedOn: on.day };
    const { day, wrong } = on;
    return {
      changes,
      refuse: [
        ...because(
          [wrong !== null, wrong ?? ''],
          [animal.stage !== 'released' || animal.releasedOn === null, 'edit.still-here'],
          [day === animal.releasedOn, 'edit.nothing'],
          [day > shop.today, 'date.future'],
          [day < animal.receivedOn, 'edit.left-before-received'],
        ),
        ...(wrong || confirmed ? [] : because([daysFrom(animal.receivedOn, day) > 400, 'date.far-ahead'])),
      ],
      done: () => void (animal.releasedOn = day),
    };
  },
  received(shop, animal, dice, confirmed) {
    const { day, wrong } = dice.onceIn(2) ? dayNear(dice, shop.today, -400, 1) : dayNear(dice, animal.receivedOn, -5, 5); // prettier-ignore
    const month = shop.book.settings.seasonStartsMonth;
    const moves = !wrong && seasonOf(day, month) !== seasonOf(animal.receivedOn, month);
    const season = moves ? seasonOf(day, month) : animal.season;
    const left = animal.releasedOn ?? animal.disposedOn;
    const ticket = wrong ? '' : ticketIn(shop, animal, season);
    return {
      changes: { receivedOn: day },
      refuse: [
        ...because(
          [wrong !== null, wrong ?? ''],
          [day === animal.receivedOn, 'edit.nothing'],
          [day > shop.today, 'date.future'],
          [animal.killDate !== null && animal.killDate > day, 'date.killed-after-received'],
          [left !== null && day > left, 'edit.after-left'],
          [animal.promisedOn !== null && animal.promisedOn < day, 'date.promised-before-received'],
        ),
        ...(wrong || confirmed ? [] : receivedAsked(animal, day, season)),
      ],
      done(given) {
        if (given !== ticket) throw new Error(`ticket ${given} after the move, not ${ticket}`);
        if (given !== animal.ticket && !animal.formerTickets.some((one) => one.ticket === animal.ticket))
          animal.formerTickets.push({ season: animal.season, ticket: animal.ticket });
        Object.assign(animal, { receivedOn: day, season, ticket });
      },
    };
  },
}; // prettier-ignore

function receivedAsked(animal: Animal, day: string, season: number): string[] {
  const moved = Math.abs(daysFrom(animal.receivedOn, day)) > 60;
  return because(
    [animal.killDate !== null && daysFrom(animal.killDate, day) > 30, 'date.killed-long-before'],
    [moved && daysFrom(day, animal.enteredOn) > 60, 'date.long-ago'],
    [moved && daysFrom(animal.enteredOn, day) > 60, 'date.far-ahead'],
    [season !== animal.season, 'edit.other-season'],
  );
}

/** The ticket that is right in a season: its own, one that it had there before, else the next one there. */
function ticketIn(shop: Shop, animal: Animal, season: number): string {
  if (season === animal.season) return animal.ticket;
  const [mark, number] = animal.ticket.split('-');
  const free = !shop.book.animals.some((one) =>
    [{ season: one.season, ticket: one.ticket }, ...one.formerTickets].some(
      (given) => given.season === season && Number(given.ticket.split('-')[1]) === Number(number),
    ),
  );
  if (mark === markOf(season) && free) return animal.ticket;
  return animal.formerTickets.find((one) => one.season === season)?.ticket ?? nextTicket(shop, season);
}

export const setDetail: Step = {
  weight: 1,
  calls: ['animals.setDetail'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.inShop, [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const detail = dice.pick(['quick', 'detailed'] as const);
    return act('animals.setDetail', { id: animal.id, detail }, {
      refuse: because([animal === NOBODY, 'animal.unknown'], [animal !== NOBODY && !isInShop(animal), 'animal.closed']),
      done: () => void (animal.detail = detail),
    }); // prettier-ignore
  },
};

export const instruct: Step = {
  weight: 2,
  calls: ['animals.saveOrders'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.inShop, [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const instructions = ordersOf(dice);
    return act('animals.saveOrders', { id: animal.id, instructions }, {
      refuse: because(
        [animal === NOBODY, 'animal.unknown'],
        [!isInShop(animal), 'animal.closed'],
        [instructions.primals.some(({ primal }) => primal === 'wing'), 'primal.unknown'],
      ),
      done: () => void (animal.ordered = instructions.primals.map(({ primal }) => primal)),
    }); // prettier-ignore
  },
};
