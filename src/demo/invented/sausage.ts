/** Whether sausage can be made of an animal's trim; where it cannot, the hunter is told so when he orders. */
import { GRAMS_PER } from '../../core/values/units.ts';
import { ORDERS, type InventedSeason } from './invention.ts';
import type { Order } from './order.ts';
import { nextWorkday } from './calendar.ts';

/** Some trim must be left for the plain grind. */
export function reachesForSausage({ sausageGrams }: Order, trimGrams: number): boolean {
  return trimGrams - sausageGrams > ORDERS.sausage.leastTrimLb * GRAMS_PER.lb;
}

/** Ground on the day after cutting at the latest, it must be there when the last sausage is made. */
export function inTimeForSausage({ pools }: InventedSeason, cutOn: string): boolean {
  return (pools.at(-1) ?? '') > nextWorkday(cutOn);
}

export function withoutSausage(order: Order): Order {
  return { ...order, instructions: { ...order.instructions, alsoGround: [] }, sausageGrams: 0 };
}
