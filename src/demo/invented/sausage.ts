/** Whether sausage can be made from an animal's trim; if not, the order has none. */
import { GRAMS_PER } from '../../core/values/units.ts';
import { ORDERS, type InventedSeason } from './invention.ts';
import type { Order } from './order.ts';
import { nextWorkday } from './calendar.ts';

/** Some trim must remain for plain grind beside what else is made of it. */
export function leavesTrim(grams: number, trimGrams: number): boolean {
  return trimGrams - grams > ORDERS.sausage.leastTrimLb * GRAMS_PER.lb;
}

/** Trim is ground at the latest on the day after cutting, and must be ready for the last sausage day. */
export function inTimeForSausage({ pools }: InventedSeason, cutOn: string): boolean {
  return (pools.at(-1) ?? '') > nextWorkday(cutOn);
}

export function withoutSausage(order: Order): Order {
  return { ...order, instructions: { ...order.instructions, alsoGround: [] }, sausageGrams: 0 };
}
