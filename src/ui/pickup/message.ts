import type { CallOutput } from '../../bridge/contract.ts';
import type { Format } from '../texts/format.ts';
import { pickupText as text } from '../texts/en/pickup.ts';
import { plural } from '../texts/plural.ts';

export type Ready = CallOutput<'pickup.get'>[number];

/**
 * What to write to a hunter whose animal is ready: what, where, how much, what is due, and the shop's own words.
 * @example // 'Hello Dana Whitlock,\nyour elk, ticket 26-0001, is packed and ready at Cold Creek Locker: 34 packages, …'
 */
export function messageTo(
  animal: Pick<
    Ready,
    'ticket' | 'hunter' | 'speciesName' | 'packages' | 'grams' | 'billed' | 'dueMinor' | 'currency'
  >,
  shop: { shopName: string; pickupMessage: string },
  format: Format,
): string {
  const packed =
    animal.packages > 0
      ? text.content(plural(animal.packages, 'package', 'packages'), format.mass(animal.grams))
      : '.';
  const due = animal.dueMinor > 0 ? text.toPay(format.money(animal.dueMinor, animal.currency)) : text.allPaid;
  return [
    text.greeting(animal.hunter),
    `${text.isReady(animal.speciesName.toLowerCase(), animal.ticket, shop.shopName)}${packed}`,
    animal.billed ? due : text.billAtCounter,
    shop.pickupMessage,
  ]
    .filter(Boolean)
    .join('\n');
}
