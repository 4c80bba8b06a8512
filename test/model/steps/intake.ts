/** Taking animals in, and putting their records right. */
import { act, because, type Step } from '../step.ts';
import { daysFrom, markOf, seasonOf, type Shop } from '../shop.ts';
import type { Animal, Hunter } from '../state.ts';
import { dayNear, INITIALS, weightNear, type TypedDay } from '../typed.ts';
import { TYPICAL } from '../kinds.ts';
import { ordersOf } from './orders.ts';

/** No shop has more on its rail in a history; more only makes each step slower. */
const MAX_IN_SHOP = 14;
const NAMES = ['Dana Whitlock', 'Bo Rask', 'Ines Okafor', 'Sam Ferreira', 'Ada Lindqvist', 'Tom Beaver'];

export const takeIn: Step = {
  weight: 10,
  calls: ['intake.takeIn'],
  draw(shop, dice) {
    if (shop.inShop.length >= MAX_IN_SHOP) return null;
    const species = dice.onceIn(60) ? 'unicorn' : dice.pick(Object.keys(TYPICAL));
    const known = dice.onceIn(3) ? dice.mostly(shop.book.hunters, [{ id: 9999 } as Hunter]) : undefined;
    const name = dice.onceIn(50) ? '' : dice.pick(NAMES);
    const brought = dice.pick(['skinned', 'whole', 'quarters', 'boned'] as const);
    const pieces = brought === 'quarters' && dice.onceIn(2) ? [{ primal: dice.onceIn(8) ? 'wing' : 'haunch', count: dice.between(1, 2) }] : []; // prettier-ignore
    const received = dice.onceIn(3) ? dayNear(dice, shop.today, -80, 1) : null;
    const promised = dice.onceIn(4) ? dayNear(dice, shop.today, -3, 200) : null;
    const killed = dice.onceIn(3) ? dayNear(dice, shop.today, -40, 1) : null;
    const quote = dice.onceIn(3) ? dice.mostly(shop.book.quotes.filter(({ taken }) => !taken), shop.book.quotes) : undefined; // prettier-ignore
    const sample = dice.onceIn(6) ? `S${shop.book.animals.length + 1}` : '';
    const confirmed = dice.onceIn(2);
    const orders = dice.onceIn(2) ? ordersOf(dice) : undefined;
    const by = dice.pick(INITIALS);
    const refusesPooling = dice.onceIn(6);
    const hanging = brought !== 'whole' && dice.onceIn(2) ? weightNear(shop, dice, (TYPICAL[species] ?? 50_000) * 0.9) : undefined; // prettier-ignore
    const on = received?.day ?? shop.today;
    return act(
      'intake.takeIn',
      {
        hunter: known ? { id: known.id } : { name, phone: `555-01${dice.between(10, 40)}`, refusesPooling },
        species, sex: dice.pick(['male', 'female', 'unknown']), age: 'adult', brought, parts: pieces,
        ...(received && { receivedOn: received.day }), ...(promised && { promisedOn: promised.day }), ...(killed && { killDate: killed.day }),
        ...(quote && { quoteId: quote.id }), ...(orders && { instructions: orders }), sample, confirmed, by,
        weights: hanging ? [{ stage: 'received' as const, typed: hanging.typed }] : [],
      },
      {
        refuse: [
          ...daysWrong(received, promised, killed, on, shop.today),
          ...(confirmed ? [] : daysAsked(received, promised, killed, on, shop.today)),
          ...because(
            [species === 'unicorn', 'species.unknown'],
            [known?.id === 9999, 'hunter.unknown'],
            [known?.removed === true, 'hunter.gone'],
            [!known && name === '', 'text.needed'],
            [pieces.some(({ primal }) => primal === 'wing'), 'primal.unknown'],
            [quote?.taken === true, 'quote.taken'],
            [orders?.primals.some(({ primal }) => primal === 'wing') === true, 'primal.unknown'],
          ),
        ],
        may: confirmed || !hanging ? [] : ['weight.unlikely'],
        done({ id, ticket }) {
          const season = seasonOf(on, shop.book.settings.seasonStartsMonth);
          const earlier = shop.tickets;
          if (earlier.includes(ticket)) throw new Error(`ticket ${ticket} was given before`);
          if (ticket !== nextTicket(shop, season)) throw new Error(`ticket ${ticket}, not ${nextTicket(shop, season)}`);
          shop.book.animals.push({
            id, season, ticket, formerTickets: [], hunter: known?.id ?? shop.newest('hunter'), species, brought, pieces, stage: 'hanging', detail: detailOf(shop, ticket),
            tag: '', receivedOn: on, enteredOn: shop.today, killDate: killed?.day ?? null, promisedOn: promised?.day ?? null,
            releasedOn: null, disposedOn: null, stageBefore: 'hanging', ordered: orders?.primals.map(({ primal }) => primal) ?? [], cooler: null,
            holds: sample ? [{ id: shop.newest('hold'), sample, withdrawn: false, results: [] }] : [], quote: quote?.id ?? null,
          });
          if (quote) quote.taken = true;
          if (hanging)
            shop.book.weighings.push({
              id: shop.newest('weighing'), animal: id, batch: null, lot: null, stage: 'received', part: 'carcass', primal: null, count: null, grams: hanging.grams, voided: false,
            });
          if (!known) shop.book.hunters.push({ id: shop.newest('hunter'), name, refusesPooling, removed: false });
        },
      },
    ); // prettier-ignore
  },
};

/** The first of a season and every so many after it are weighed in detail. */
function detailOf(shop: Shop, ticket: string): Animal['detail'] {
  return (Number(ticket.split('-')[1]) - 1) % shop.book.settings.detailEvery === 0 ? 'detailed' : 'quick';
}

function daysWrong(received: TypedDay | null, promised: TypedDay | null, killed: TypedDay | null, on: string, today: string): string[] {
  return [
    ...[received, promised, killed].flatMap((one) => one?.wrong ?? []),
    ...because(
      [on > today, 'date.future'],
      [killed !== null && killed.day > on, 'date.killed-after-received'],
      [promised !== null && promised.day < on, 'date.promised-before-received'],
    ),
  ];
} // prettier-ignore

function daysAsked(received: TypedDay | null, promised: TypedDay | null, killed: TypedDay | null, on: string, today: string): string[] {
  const wrong = [received, promised, killed].some((one) => one?.wrong);
  if (wrong) return [];
  return because(
    [received !== null && daysFrom(on, today) > 60, 'date.long-ago'],
    [promised !== null && daysFrom(today, promised.day) > 180, 'date.far-ahead'],
    [killed !== null && daysFrom(killed.day, on) > 30, 'date.killed-long-before'],
  );
} // prettier-ignore

/** The number after the last of the season, past every ticket that is taken. */
export function nextTicket(shop: Shop, season: number): string {
  const numbers = shop.book.animals.flatMap((one) =>
    [{ season: one.season, ticket: one.ticket }, ...one.formerTickets]
      .filter((given) => given.season === season)
      .map(({ ticket }) => Number(ticket.split('-')[1])),
  );
  const taken = shop.tickets;
  let number = Math.max(0, ...numbers) + 1;
  const ticket = (): string => `${markOf(season)}-${String(number).padStart(4, '0')}`;
  while (taken.includes(ticket())) number++;
  return ticket();
}
