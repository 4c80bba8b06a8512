import { addDays } from '../core/values/dates.ts';
import { GRAMS_PER } from '../core/values/units.ts';
import type { DemoAnimal } from './invented/animal.ts';
import { payBalance } from './billing.ts';
import { momentAt } from './invented/calendar.ts';
import type { Shop } from './shop-day.ts';

/** Most hunters come within days; some need a second call. */
const FETCHED = [
  { value: [0, 2], weight: 55 },
  { value: [3, 5], weight: 30 },
  { value: [6, 13], weight: 15 },
] as const;
const BY_SOMEBODY_ELSE = 0.07;
const BIG_BOX_GRAMS = 60 * GRAMS_PER.lb;

/** Schedules the pickup, once an animal is ready and again when its hold has ended. */
export function planPickUp(shop: Shop, animal: DemoAnimal): void {
  const { counter, events: diary } = shop;
  const { id, draw, person, season } = animal;
  if (counter.book.animals.get(id)?.stage !== 'ready' || counter.book.animals.hold(id)) return;
  const [soonest, latest] = draw.pickWeighted<readonly [number, number]>(FETCHED);
  const day = addDays(counter.today(), draw.whole(soonest, latest));
  const at = momentAt(day, draw.between(day === counter.today() ? 17 * 60 : 9 * 60, 18 * 60));
  const to = draw.maybe(BY_SOMEBODY_ELSE)
    ? shop.town.invent(draw, season.season).card.name
    : person.card.name;
  const note = animal.truth.takeHome > BIG_BOX_GRAMS && draw.maybe(0.3) ? 'Two coolers' : '';
  diary.schedule(at, () => {
    // On hold in the meantime: pickup follows the result.
    if (counter.book.animals.hold(id)) return;
    const unpaidBy = payBalance(shop, animal);
    counter.call('pickup.release', { id, to, note, unpaidBy, by: animal.cutter });
  });
}

/** After a positive result all work on the animal stops. */
export function foundPositive({ counter }: Shop, { id }: DemoAnimal): boolean {
  return counter.book.animals.hold(id)?.positive === 1;
}

export function ready(shop: Shop, animal: DemoAnimal): void {
  if (foundPositive(shop, animal)) return;
  // Where the weights do not fit, the cutter weighed again and says so.
  const answer = 'Weighed again, it is right';
  shop.counter.call('animals.setStage', {
    id: animal.id,
    stage: 'ready',
    answer,
    confirmed: true,
    by: animal.cutter,
  });
  planPickUp(shop, animal);
}
