/**
 * One animal's account: a bill that stands, and what was paid. All its money is in one currency. The rules:
 *
 * - The shop's currency changes only while no account is open in another: each is paid, or its bill voided and its money
 *   given back.
 * - A payment is in the currency of the bill that stands, else in that of the payments before it, else in the shop's.
 * - A bill is made only with prices in the shop's currency, and not over money that was paid in another.
 * - Voiding a payment never leaves more given back than was taken, and brings no money of another currency into the account.
 */
import type { PaymentRecord } from '../../book/records/payments.ts';
import { Trouble } from '../contract/problem.ts';
import type { DeskRoom } from '../session/room.ts';

/** The currency in which an animal is paid for. */
export function accountCurrency(room: DeskRoom, animalId: number): string {
  const bill = room.book.bills.ofAnimal(animalId).find(({ void_at }) => void_at === null);
  const payment = room.book.payments.ofAnimal(animalId).findLast(({ void_at }) => void_at === null);
  return bill?.currency ?? payment?.currency ?? room.settings.currency;
}

/** @throws Trouble `currency.accounts-open` while money is open in another currency */
export function refuseCurrency(room: DeskRoom, currency: string): void {
  const open = room.book.payments.openAccounts(currency);
  const [first] = open;
  if (!first) return;
  throw new Trouble('refused', 'currency.accounts-open', {
    field: 'currency',
    with: { currency: first.currency, count: open.length, tickets: open.slice(0, 5).map((one) => one.ticket).join(', ') },
  }); // prettier-ignore
}

/** @throws Trouble `bill.other-currency`, `bill.paid-in-other-currency` */
export function refuseBillIn(room: DeskRoom, currency: string, animal: { id: number; ticket: string }): void {
  const shop = room.settings.currency;
  if (currency !== shop) throw new Trouble('refused', 'bill.other-currency', { with: { currency, shop } });
  const paidIn = accountCurrency(room, animal.id);
  if (paidIn !== currency && room.book.payments.paid(animal.id) !== 0)
    throw new Trouble('refused', 'bill.paid-in-other-currency', {
      with: { ticket: animal.ticket, paidIn, currency },
    });
}

/** @throws Trouble `payment.other-currency` for a payment, or a refund, from before the account went on in other money */
export function refuseVoidIn(
  room: DeskRoom,
  { animal_id: animalId, currency }: Pick<PaymentRecord, 'animal_id' | 'currency'>,
): void {
  const now = accountCurrency(room, animalId);
  if (now !== currency) throw new Trouble('refused', 'payment.other-currency', { with: { currency, now } });
}
