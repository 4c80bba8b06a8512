/** The invented shop's two coolers: the animals in each, and the temperature readings of the last weeks. */
import { addDays } from '../core/values/dates.ts';
import type { DemoAnimal } from './invented/animal.ts';
import { momentAt } from './invented/calendar.ts';
import { drawing } from './invented/draw.ts';
import { SEASONS, SHOP, type InventedSeason } from './invented/invention.ts';
import type { Shop } from './shop-day.ts';

const OPENED = 7 * 60;
/** Three readings a day; earlier weeks are on paper. */
const LOG_DAYS = 14;
const READ_AT = [6 * 60 + 40, 12 * 60 + 30, 18 * 60 + 10] as const;
/** One evening, two days before the demo's current date, a door was left open until noticed. */
const DOOR_DAYS_AGO = 2;
const DOOR = [
  { minutes: 19 * 60 + 5, f: 41 },
  { minutes: 20 * 60 + 20, f: 44 },
  { minutes: 21 * 60 + 35, f: 39 },
] as const;

const front = SHOP.staff[0]?.initials ?? '';

export function planCoolers(shop: Shop, { opens }: InventedSeason): void {
  shop.events.schedule(momentAt(opens, OPENED), () => {
    for (const { name, places } of SHOP.coolers)
      shop.counter.call('coolers.save', { name, places, by: front });
  });
  for (let ago = LOG_DAYS; ago >= 0; ago--) {
    const day = addDays(shop.lastDay, -ago);
    for (const [i, { usualF }] of SHOP.coolers.entries())
      for (const [turn, minutes] of READ_AT.entries()) {
        const draw = drawing(SEASONS.seed, 13, i, ago, turn);
        // Warmer by day, when the door is used.
        const f = usualF + draw.whole(-1, 1) + (turn === 1 ? 1 : 0);
        shop.events.schedule(momentAt(day, minutes + draw.whole(0, 25)), () =>
          read(shop, i, f, draw.pick(STAFF)),
        );
      }
  }
  const doorDay = addDays(shop.lastDay, -DOOR_DAYS_AGO);
  for (const { minutes, f } of DOOR)
    shop.events.schedule(momentAt(doorDay, minutes), () => read(shop, 0, f, front));
}
const STAFF = SHOP.staff.map(({ initials }) => initials);

function read({ counter }: Shop, cooler: number, f: number, by: string): void {
  const coolerId = counter.book.coolers.all()[cooler]?.id;
  if (coolerId !== undefined) counter.call('coolers.logTemperature', { coolerId, typed: `${f}F`, by });
}

/** A carcass hangs in the first cooler with room; boned meat goes on a shelf. */
export function hangUp({ counter }: Shop, { id, brought, season }: DemoAnimal, by: string): void {
  if (!season.mistakes) return;
  const coolers = counter.book.coolers.all();
  const cooler = coolers.find(({ hanging, places }) => hanging < places) ?? coolers[0];
  if (!cooler) return;
  const place = brought === 'boned' || brought === 'primals' ? 'shelf' : `hook ${freeHook(counter, cooler)}`;
  counter.call('animals.hang', { ids: [id], coolerId: cooler.id, place, by });
}

function freeHook({ book }: Shop['counter'], { id, places }: { id: number; places: number }): number {
  const taken = new Set(
    book.animals
      .inShop()
      .filter(({ stage }) => stage === 'hanging' || stage === 'cutting')
      .map((animal) => book.coolers.stay(animal.id))
      .filter((stay) => stay?.cooler_id === id)
      .map((stay) => stay?.place),
  );
  for (let hook = 1; hook < places; hook++) if (!taken.has(`hook ${hook}`)) return hook;
  return places;
}
