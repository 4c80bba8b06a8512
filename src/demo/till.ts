/** The till of the running season: a float each morning, cash counted and the day closed each evening. */
import { addDays } from '../core/values/dates.ts';
import { momentAt } from './invented/calendar.ts';
import { drawing } from './invented/draw.ts';
import { SEASONS, type InventedSeason } from './invented/invention.ts';
import type { Shop } from './shop-day.ts';

const FLOAT = '200.00';
const CENTS = 100;
const [MORNING, EVENING] = [7 * 60 + 50, 18 * 60 + 25];
/** Share of days on which the count is off, and by how much in cents. */
const OFF = 0.08;
const OFF_BY = [-500, -100, 100, 1000] as const;
/** A random stream of its own, so that the till changes nothing else. */
const TILL_STREAM = 6;

export function planTill(shop: Shop, { opens }: InventedSeason, by: string): void {
  for (let day = opens, n = 0; day <= shop.lastDay; day = addDays(day, 1), n++) {
    shop.events.schedule(momentAt(day, MORNING), () => {
      shop.counter.call('till.setFloat', { typed: FLOAT, by });
    });
    const draw = drawing(SEASONS.seed, n, TILL_STREAM);
    const offBy = draw.maybe(OFF) ? draw.pick(OFF_BY) : 0;
    shop.events.schedule(momentAt(day, EVENING), () => closeDay(shop, offBy, by));
  }
}

function closeDay({ counter }: Shop, offBy: number, by: string): void {
  const { day, currency, entries, sums, expectedMinor } = counter.call('till.get', {});
  if (entries.length === 0) return;
  const seen = sums
    .filter((sum) => sum.by === null)
    .map(({ method, count, totalMinor }) => ({ method, count, totalMinor }));
  const total = ((expectedMinor + offBy) / CENTS).toFixed(2);
  const note = offBy === 0 ? '' : 'Counted twice; change given wrong';
  counter.call('till.close', { day, currency, expectedMinor, seen, counted: { total }, note, by });
}
