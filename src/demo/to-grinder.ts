/** When trim goes to the grinder: a single owner's on the next working day, some kept for jerky or for a sausage day. */
import { GRAMS_PER } from '../core/values/units.ts';
import type { DemoAnimal } from './invented/animal.ts';
import { momentAt, nextWorkday } from './invented/calendar.ts';
import { grind } from './grinding.ts';
import { foundPositive, ready } from './hand-over.ts';
import { ORDERS, type InventedSeason } from './invented/invention.ts';
import type { AlsoGround } from '../desk/contract/contract.ts';
import { leavesTrim } from './invented/sausage.ts';
import type { Shop } from './shop-day.ts';

const DAY = [8 * 60 + 15, 16 * 60 + 30] as const;
/** On the last day half of the morning's batches are still to come at the demo's current time. */
const LAST_DAY = [8 * 60 + 30, 13 * 60] as const;
const SAME_DAY = 0.45;
const SAUSAGE_AT = 9 * 60 + 50;
/** On the last day early enough that it is in the smokehouse at the demo's current time. */
const SAUSAGE_AT_LAST = 6 * 60 + 30;
const SAUSAGE_PACK_GRAMS = GRAMS_PER.lb;
const JERKY_PACK_GRAMS = ORDERS.jerky.packageOz * GRAMS_PER.oz;

export function planGrind(shop: Shop, animal: DemoAnimal): void {
  const { draw, cutOn, order, cutter: by } = animal;
  const { fat, targetFat, grindProduct: product, packageGrams } = order.instructions;
  const left = trimLeft(shop, animal);
  const also = order.sausageGrams + order.jerkyGrams;
  // A slip at the table may have left too little of it.
  const reaches = also > 0 && leavesTrim(also, left);
  const done = () => {
    if (!reaches) return ready(shop, animal);
    return order.jerkyGrams > 0 ? makeJerky(shop, animal) : void shop.sausage.push(animal);
  };
  const grams = reaches ? left - also : null;
  const grindOrder = { owners: [animal], grams, fat, targetFat, product, packageGrams, by, done };
  const happens = () => (foundPositive(shop, animal) ? undefined : grind(shop, grindOrder));
  if (draw.maybe(SAME_DAY) && cutOn !== shop.lastDay) return shop.scheduleIn(draw.between(20, 60), happens);
  const day = nextWorkday(cutOn);
  shop.events.schedule(momentAt(day, draw.between(...(day === shop.lastDay ? LAST_DAY : DAY))), happens);
}

/** Ground jerky of what was kept of one animal's trim, after its plain grind. */
async function makeJerky(shop: Shop, animal: DemoAnimal): Promise<void> {
  await grind(shop, {
    owners: [animal],
    grams: null,
    fat: 'none',
    targetFat: null,
    product: ORDERS.jerky.product,
    packageGrams: JERKY_PACK_GRAMS,
    by: animal.cutter,
    done: () => ready(shop, animal),
  });
}

/** Sausage days: the waiting animals, up to a maximum; too few wait for the next day, if there is one. */
export function planSausage(shop: Shop, season: InventedSeason): void {
  const { products, leastOwners, mostOwners } = ORDERS.sausage;
  for (const [i, day] of season.pools.entries())
    shop.events.schedule(momentAt(day, day === shop.lastDay ? SAUSAGE_AT_LAST : SAUSAGE_AT), async () => {
      const last = i === season.pools.length - 1;
      for (const product of products) {
        const waiting = shop.sausage.filter((owner) => sausageOf(owner)?.product === product);
        if (waiting.length < (last ? 1 : leastOwners)) continue;
        await makeSausage(shop, waiting.slice(0, last ? waiting.length : mostOwners));
      }
    });
}

async function makeSausage(shop: Shop, owners: DemoAnimal[]): Promise<void> {
  shop.sausage = shop.sausage.filter((owner) => !owners.includes(owner));
  const [first] = owners;
  const order = first && sausageOf(first);
  if (!order) return;
  await grind(shop, {
    owners,
    grams: null,
    fat: order.fat,
    targetFat: order.targetFat,
    product: order.product,
    packageGrams: SAUSAGE_PACK_GRAMS,
    by: first.cutter,
    done: () => owners.forEach((owner) => ready(shop, owner)),
  });
}

function sausageOf({ order }: DemoAnimal): AlsoGround | undefined {
  return order.instructions.alsoGround[0];
}

function trimLeft({ counter }: Shop, { id }: DemoAnimal): number {
  const sums = counter.book.weighings.sums(id);
  return (sums?.trim ?? 0) - (sums?.trim_ground ?? 0);
}
