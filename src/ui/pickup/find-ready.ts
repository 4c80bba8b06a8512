import { quickTicket } from '../calls/quick-ticket.ts';
import { plainLetters } from '../texts/plain-letters.ts';
import type { Ready } from './message.ts';

/**
 * The animals that a hunter at the counter means: by ticket, by part of a name, or by at least four digits of a phone
 * number. A ticket of the list wins over phone numbers that contain its digits.
 * @param season the shop's present season, for tickets typed short
 * @example findReady(ready, '162', 2026) // the animal of ticket 26-0162
 */
export function findReady(ready: readonly Ready[], typed: string, season: number): readonly Ready[] {
  const text = plainLetters(typed.trim());
  if (text === '') return ready;
  const ticket = quickTicket(typed, season);
  const byTicket = ready.filter((one) => one.ticket === ticket);
  if (byTicket.length > 0) return byTicket;
  const digits = /\p{L}/u.test(text) ? '' : text.replace(/\D/g, '');
  return ready.filter(
    ({ hunter, phone, shares }) =>
      [hunter, ...shares.map(({ name }) => name)].some((name) => plainLetters(name).includes(text)) ||
      (digits.length >= 4 && phone.replace(/\D/g, '').includes(digits)),
  );
}
