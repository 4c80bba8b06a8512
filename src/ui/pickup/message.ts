import type { CallOutput, OpenAnimal } from '../../bridge/contract.ts';
import type { Format } from '../texts/format.ts';
import { text as pickupText } from '../../words/compiled/window/pickup.ts';
import { text as tillText } from '../../words/compiled/window/till.ts';
import { inLanguage } from '../../words/area.ts';
import { SOURCE_LANGUAGE, type Language } from '../../words/languages.ts';

export type Ready = CallOutput<'pickup.get'>[number];

/** On hold, or ground together with meat on hold: it is not handed over. */
export const staysHere = ({ hold, waitsFor }: Pick<Ready, 'hold' | 'waitsFor'>): boolean =>
  hold !== null || waitsFor.length > 0;

/**
 * The message to a hunter whose animal is ready: what, where, number of packages, balance due, and the shop's own
 * text.
 * @param language of the hunter; `speciesName` and `format` are in it
 * @example // 'Hello Dana Whitlock,\nYour animal is packed and ready at Cold Creek Locker: Elk, ticket 26-0001, 34 packages, …'
 */
export function messageTo(
  animal: Pick<
    Ready,
    'ticket' | 'hunter' | 'speciesName' | 'packages' | 'grams' | 'billed' | 'dueMinor' | 'currency'
  >,
  shop: { shopName: string; pickupMessage: string },
  format: Format,
  language: Language = SOURCE_LANGUAGE,
): string {
  const text = inLanguage(pickupText, language);
  const due =
    animal.dueMinor > 0
      ? text.toPay({ amount: format.money(animal.dueMinor, animal.currency) })
      : text.allPaid;
  return [
    text.greeting({ name: animal.hunter }),
    text.isReady(
      {
        species: animal.speciesName,
        ticket: animal.ticket,
        shop: shop.shopName,
        count: animal.packages,
        grams: animal.grams,
      },
      format,
    ),
    animal.billed ? due : text.billAtCounter,
    shop.pickupMessage,
  ]
    .filter(Boolean)
    .join('\n');
}

/**
 * The message to a hunter with a balance due. For an animal that is ready, it says so; otherwise it names the open
 * bill and its date.
 * @example // 'Hello Dana Whitlock,\nThe bill of Nov 1, 2026 for ticket 26-0001 (Elk) at Cold Creek Locker is still open.\nBalance due: …'
 */
export function reminderTo(
  hunter: string,
  animal: OpenAnimal,
  shop: { shopName: string; pickupMessage: string },
  format: Format,
  language: Language = SOURCE_LANGUAGE,
): string {
  if (animal.stage === 'ready') return messageTo({ ...animal, hunter, billed: true }, shop, format, language);
  const text = inLanguage(pickupText, language);
  return [
    text.greeting({ name: hunter }),
    inLanguage(tillText, language).openSince({
      species: animal.speciesName,
      ticket: animal.ticket,
      shop: shop.shopName,
      day: format.longDay(animal.billedOn),
    }),
    text.toPay({ amount: format.money(animal.dueMinor, animal.currency) }),
    shop.pickupMessage,
  ]
    .filter(Boolean)
    .join('\n');
}
