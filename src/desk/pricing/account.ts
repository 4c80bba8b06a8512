/**
 * One animal's account: its active bill and its payments, all in one currency. The rules:
 *
 * - The shop's currency changes only if no account in another currency is open: each is paid, or its bill voided and
 *   its money refunded.
 * - A payment is in the currency of the active bill, else in that of earlier payments, else in the shop's.
 * - A bill requires prices in the shop's currency, and no money paid in another one.
 * - Voiding a payment never leaves refunds above payments, and never brings money of another currency into the
 *   account.
 */
import type { PaymentRecord } from '../../book/records/payments.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** Per animal, including voided ones; all are loaded with its bill. */
const MAX_PAYMENTS = 500;

/** Checks the limit before another payment is entered. @throws ProblemError `payment.too-many` (refused) */
export function refuseMorePayments(
  session: Session,
  { id: animalId, ticket }: { id: number; ticket: string },
): void {
  if (session.book.payments.count(animalId) >= MAX_PAYMENTS)
    throw new ProblemError('refused', 'payment.too-many', { with: { ticket, count: MAX_PAYMENTS } });
}

/** The currency of an animal's account. */
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

/** @throws ProblemError `payment.other-currency` for a payment or refund in a former currency of the account */
export function refuseVoidIn(
  session: Session,
  { animal_id: animalId, currency }: Pick<PaymentRecord, 'animal_id' | 'currency'>,
): void {
  const now = accountCurrency(session, animalId);
  if (now !== currency)
    throw new ProblemError('refused', 'payment.other-currency', { with: { currency, now } });
}
