import { addDays } from '../core/values/dates.ts';
import { GRAMS_PER } from '../core/values/units.ts';
import { reasonKept } from '../trade/offered.ts';
import type { DemoAnimal } from './invented/animal.ts';
import { payBalance } from './billing.ts';
import { momentAt } from './invented/calendar.ts';
import { drawing } from './invented/draw.ts';
import { SEASONS, SHOP } from './invented/invention.ts';
import type { Shop } from './shop-day.ts';

/** Most hunters come within days; some need a second call. */
const FETCHED = [
  { value: [0, 2], weight: 55 },
  { value: [3, 5], weight: 30 },
  { value: [6, 13], weight: 15 },
] as const;
const BY_SOMEBODY_ELSE = 0.07;
const BIG_BOX_GRAMS = 60 * GRAMS_PER.lb;
/** Share of those with a big box who leave a part of it for a pantry; a random stream of its own. */
const GIVE = 0.15;
const GIFT_STREAM = 5;

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
    giveToPantry(shop, animal);
    handOver(shop, animal, { to, note, unpaidBy: payBalance(shop, animal) });
  });
}

/** Some hunters of the running season leave a part for a pantry. */
function giveToPantry({ counter }: Shop, { id, cutter: by, season, truth }: DemoAnimal): void {
  const [program] = SHOP.settings.donationPrograms ?? [];
  if (!program || !season.mistakes || truth.takeHome < BIG_BOX_GRAMS) return;
  const draw = drawing(SEASONS.seed, id, GIFT_STREAM);
  if (!draw.maybe(GIVE)) return;
  const gift = { program: program.name, confirmation: `VP-${1000 + id}`, note: '' };
  counter.confirm('donations.add', { id, ...gift, whole: false, typed: `${draw.whole(5, 10)}`, by });
}

/** With its belongings, to each of those who share it. */
function handOver(
  { counter }: Shop,
  { id, cutter: by }: DemoAnimal,
  { to, note, unpaidBy }: { to: string; note: string; unpaidBy: string },
): void {
  const here = counter.call('belongings.list', { animalId: id }).filter(({ end }) => end === null);
  const belongings = here.map((one) => one.id);
  const [owner, ...others] = counter.book.shares.ofAnimal(id);
  if (!owner || others.length === 0) {
    counter.call('pickup.release', { id, to, note, unpaidBy, belongings, by });
    return;
  }
  for (const { hunter_id: hunterId, hunter: name } of others)
    counter.confirm('shares.release', { id, hunterId, to: name, unpaidBy, by });
  counter.confirm('shares.release', { id, hunterId: owner.hunter_id, to, unpaidBy, belongings, by });
}

/** After a positive result all work on the animal stops. */
export function foundPositive({ counter }: Shop, { id }: DemoAnimal): boolean {
  return counter.book.animals.hold(id)?.positive === 1;
}

export function ready(shop: Shop, animal: DemoAnimal): void {
  if (foundPositive(shop, animal)) return;
  // Where the weights do not fit, the cutter weighed again and says so.
  const answer = reasonKept('weighed-again-right');
  shop.counter.call('animals.setStage', {
    id: animal.id,
    stage: 'ready',
    answer,
    confirmed: true,
    by: animal.cutter,
  });
  planPickUp(shop, animal);
}
