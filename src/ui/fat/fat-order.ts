import type { FatNeed } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/fat.ts';
import type { Format } from '../texts/format.ts';

/** How much of a fat to order, in whole pounds or kilograms: 'about 18 lb (12–25 lb)'. */
export function orderText(
  { order }: Pick<FatNeed, 'order'>,
  format: Pick<Format, 'mass' | 'massRange'>,
): string {
  const none = format.mass(0, 0);
  if (format.mass(order.high, 0) === none) return text.enough;
  const range = format.massRange(order.low, order.high, 0);
  const mean = format.mass(order.mean, 0);
  return mean === none ? text.perhaps({ range }) : text.orderAbout({ mass: mean, range });
}

/** One line for all fats that are short; empty if none is: 'Pork back fat, about 18 lb (12–25 lb)'. */
export function shortOf(sources: readonly FatNeed[], format: Pick<Format, 'mass' | 'massRange'>): string {
  const short = sources.filter(({ order }) => format.mass(order.mean, 0) !== format.mass(0, 0));
  return short.map((need) => `${need.name}, ${orderText(need, format)}`).join('; ');
}
