/** What comes with an animal besides its meat, and a second hunter who shares it. */
import type { DemoAnimal } from './invented/animal.ts';
import { momentAt } from './invented/calendar.ts';
import { addDays } from '../core/values/dates.ts';
import { drawing } from './invented/draw.ts';
import { SEASONS, SHOP } from './invented/invention.ts';
import type { Shop } from './shop-day.ts';

/** Random streams of their own, so that they change nothing else. */
const [CAME_STREAM, SHARE_STREAM] = [3, 4];
/** Share of bucks and bulls whose head or cape stays in the shop, and of animals that two hunters share. */
const CAME = 0.3;
const SHARED = 0.03;
const KINDS = [
  { value: 'antlers', weight: 60 },
  { value: 'cape', weight: 25 },
  { value: 'heart', weight: 15 },
] as const;

/** Records belongings at intake; a cape goes to the taxidermist within days. */
export function bringBelongings({ counter, events }: Shop, animal: DemoAnimal, by: string): void {
  const draw = drawing(SEASONS.seed, animal.id, CAME_STREAM);
  if (!animal.season.mistakes || animal.sex !== 'male' || animal.brought === 'boned' || !draw.maybe(CAME))
    return;
  const kind = draw.pickWeighted(KINDS);
  const { id } = counter.call('belongings.add', {
    animalId: animal.id,
    kind,
    tag: kind === 'heart' ? '' : `A-${draw.whole(100, 999)}`,
    place: kind === 'heart' ? 'Freezer 2' : 'Antler rack',
    note: '',
    by,
  });
  if (kind !== 'cape') return;
  const collected = momentAt(addDays(animal.receivedOn, draw.whole(1, 4)), 11 * 60);
  const receipt = `${draw.whole(2000, 2999)}`;
  events.schedule(collected, () => {
    counter.call('belongings.end', {
      id,
      went: 'taxidermist',
      name: SHOP.taxidermist,
      receipt,
      note: '',
      by,
    });
  });
}

/** Names a second hunter, who takes half. */
export function shareWithFriend({ counter }: Shop, animal: DemoAnimal, by: string): void {
  const draw = drawing(SEASONS.seed, animal.id, SHARE_STREAM);
  if (!animal.season.mistakes || !draw.maybe(SHARED)) return;
  const owner = counter.book.animals.get(animal.id)?.hunter_id;
  if (owner === undefined) return;
  const friend = draw.pick(SHOP.sharers);
  const known = counter.call('hunters.find', { text: friend.phone })[0];
  const shares = [{ id: owner }, known ? { id: known.id } : friend].map((hunter) => ({
    hunter,
    typed: '50',
  }));
  counter.call('shares.save', { animalId: animal.id, basis: 'percent', shares, reason: '', by });
}
