import type { Session } from '../session/session.ts';
import type { BillState } from '../contract/contract.ts';

/** Whether an animal is billed, and its balance in minor units of its currency; 0 without a bill. */
export function dueOf(session: Session, animalId: number): BillState {
  const standing = session.book.bills.standing(animalId);
  if (!standing) return { billed: false, number: null, dueMinor: 0, currency: session.settings.currency };
  const dueMinor = standing.total_minor - session.book.payments.paid(animalId);
  return { billed: true, number: standing.number, dueMinor, currency: standing.currency };
}
