/** Fills the demo book with an invented shop's seasons, entry by entry, through the calls of a shop. */
import type { Book } from '../book/book.ts';
import { addDays } from '../core/values/dates.ts';
import type { DemoAnimal } from './invented/animal.ts';
import { momentAt, openEventQueue } from './invented/calendar.ts';
import { planCoolers } from './cold-rooms.ts';
import { openCounter } from './counter.ts';
import { planCutting } from './cutting.ts';
import { planDeliveries } from './fat-bought.ts';
import { herdOf } from './invented/herd.ts';
import { SEASONS, SHOP } from './invented/invention.ts';
import { openTown } from './invented/people.ts';
import { setUpShop } from './set-up.ts';
import { openShop } from './shop-day.ts';
import { planQuotes } from './quotes.ts';
import { allWeights, plantSlips } from './invented/slips.ts';
import { planIntake } from './taking-in.ts';
import { planTill } from './till.ts';
import { planSausage } from './to-grinder.ts';

/** The demo's fixed current date, a Saturday in November, so that its season looks the same all year. */
export const DEMO_NOW = new Date(SEASONS.today);

/** Days of a season on which the yield model is refitted. */
const LEARNS = [0] as const;

/** The planted data, for tests. */
export interface DemoMade {
  /** Animals with an uncorrected slip, in the order of `resources/demo/mistakes.json`. */
  slipped: { ticket: string; typed: string }[];
}

export async function fillDemo(book: Book): Promise<DemoMade> {
  // One transaction for the whole fill, with each entry as a savepoint: a partial demo is useless.
  book.db.exec('BEGIN IMMEDIATE');
  try {
    const made = await fill(book);
    book.db.exec('COMMIT');
    return made;
  } catch (error) {
    book.db.exec('ROLLBACK');
    throw error;
  }
}

async function fill(book: Book): Promise<DemoMade> {
  const counter = openCounter(book);
  const diary = openEventQueue();
  const town = openTown();
  setUpShop(counter);
  counter.setClock(DEMO_NOW);
  const shop = openShop(counter, diary, town, counter.today());
  const front = SHOP.staff[0]?.initials ?? '';
  const slipped: DemoAnimal[] = [];
  for (const season of SEASONS.seasons) {
    const animals = herdOf(season, town, shop.lastDay);
    if (season.mistakes) slipped.push(...plantSlips(animals, shop.lastDay));
    if (season.mistakes) planDeliveries(shop, season);
    if (season.mistakes) planCoolers(shop, season);
    if (season.mistakes) planTill(shop, season, front);
    if (season.quotes > 0) planQuotes(shop, season, animals);
    planSausage(shop, season);
    for (const animal of animals) {
      planIntake(shop, animal, front);
      planCutting(shop, animal);
    }
    for (const day of LEARNS) diary.schedule(momentAt(addDays(season.opens, day), 0), () => counter.learn());
  }
  await diary.run(DEMO_NOW, counter.setClock);
  return {
    slipped: slipped.map((animal) => ({
      ticket: animal.ticket,
      typed: allWeights(animal).find(({ slip }) => slip)?.slip?.typed ?? '',
    })),
  };
}
