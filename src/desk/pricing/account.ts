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
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** Of one animal, voided ones included; all of them are read with its bill. */
const MAX_PAYMENTS = 500;

/** Called before one more payment is entered. @throws ProblemError `payment.too-many` (refused) */
export function refuseMorePayments(
  session: Session,
  { id: animalId, ticket }: { id: number; ticket: string },
): void {
  if (session.book.payments.count(animalId) >= MAX_PAYMENTS)
    throw new ProblemError('refused', 'payment.too-many', { with: { ticket, count: MAX_PAYMENTS } });
}

/** The currency in which an animal is paid for. */
export function accountCurrency(session: Session, animalId: number): string {
  const bill = session.book.bills.standing(animalId);
  const payment = session.book.payments.ofAnimal(animalId).findLast(({ void_at }) => void_at === null);
  return bill?.currency ?? payment?.currency ?? session.settings.currency;
}

/** @throws ProblemError `currency.accounts-open` while money is open in another currency */
export function refuseCurrency(session: Session, currency: string): void {
  const open = session.book.payments.openAccounts(currency);
  const [first] = open;
  if (!first) return;
  throw new ProblemError('refused', 'currency.accounts-open', {
    field: 'currency',
    with: { currency: first.currency, count: open.length, tickets: open.slice(0, 5).map((one) => one.ticket).join(', ') },
  }); // prettier-ignore
}

/** @throws ProblemError `bill.other-currency`, `bill.paid-in-other-currency` */
export function refuseBillIn(
  session: Session,
  currency: string,
  animal: { id: number; ticket: string },
): void {
  const shop = session.settings.currency;
  if (currency !== shop)
    throw new ProblemError('refused', 'bill.other-currency', { with: { currency, shop } });
  const paidIn = accountCurrency(session, animal.id);
  if (paidIn !== currency && session.book.payments.paid(animal.id) !== 0)
    throw new ProblemError('refused', 'bill.paid-in-other-currency', {
      with: { ticket: animal.ticket, paidIn, currency },
    });
}

/** @throws ProblemError `payment.other-currency` for a payment, or a refund, from before the account went on in other money */
export function refuseVoidIn(
  session: Session,
  { animal_id: animalId, currency }: Pick<PaymentRecord, 'animal_id' | 'currency'>,
): void {
  const now = accountCurrency(session, animalId);
  if (now !== currency)
    throw new ProblemError('refused', 'payment.other-currency', { with: { currency, now } });
}
