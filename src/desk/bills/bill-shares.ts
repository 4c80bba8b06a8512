/** What each hunter of a shared animal owes. There is one account; the parts sum to it. */
import { sharersOf, splitMinor } from '../animal/shares.ts';
import type { BillShare, Sharer } from '../contract/contract.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/**
 * Each hunter's part of a bill or draft. A payment without a payer, or by a former sharer, counts for the owner. Once the
 * whole is paid no hunter owes anything: what they owe each other is not the shop's.
 */
export function billShares(
  session: Session,
  animalId: number,
  owed: { totalMinor: number; taxMinor: number } | null,
): BillShare[] {
  const sharers = sharersOf(session, animalId);
  if (sharers.length === 0) return [];
  const totals = splitMinor(owed?.totalMinor ?? 0, sharers);
  const taxes = splitMinor(owed?.taxMinor ?? 0, sharers);
  const countsFor = payerOf(session, animalId, sharers);
  const paid = sharers.map(() => 0);
  for (const payment of session.book.payments.ofAnimal(animalId)) {
    if (payment.void_at !== null) continue;
    const at = countsFor(payment.hunter_id);
    const minor = payment.kind === 'refund' ? -payment.amount_minor : payment.amount_minor;
    paid[at] = (paid[at] ?? 0) + minor;
  }
  const dues = totals.map((total, i) => total - (paid[i] ?? 0));
  const isSettled = dues.reduce((sum, due) => sum + due, 0) === 0;
  return sharers.map((sharer, i) => ({
    ...sharer,
    totalMinor: totals[i] ?? 0,
    taxMinor: taxes[i] ?? 0,
    paidMinor: paid[i] ?? 0,
    dueMinor: isSettled ? 0 : (dues[i] ?? 0),
  }));
}

/** Index of the sharer for whom a payment by this payer, or by nobody, counts. */
export function payerOf(
  session: Session,
  animalId: number,
  sharers: readonly Sharer[],
): (hunterId: number | null) => number {
  const owner = session.book.animals.get(animalId)?.hunter_id;
  const placeOf = (hunterId: number | null | undefined): number =>
    sharers.findIndex((one) => one.hunterId === hunterId);
  return (hunterId) => {
    const payer = placeOf(hunterId);
    // If the owner has no part any more, the first sharer.
    return payer >= 0 ? payer : Math.max(0, placeOf(owner));
  };
}

/** What each still owes of the active bill; 0 for all if there is none. */
export function sharesDue(session: Session, animalId: number): ReadonlyMap<number, number> {
  const standing = session.book.bills.standing(animalId);
  if (!standing) return new Map();
  const owed = { totalMinor: standing.total_minor, taxMinor: standing.tax_minor };
  return new Map(billShares(session, animalId, owed).map(({ hunterId, dueMinor }) => [hunterId, dueMinor]));
}

/**
 * Refuses to refund more than was paid, in total or by the hunter who gets the refund.
 * @throws ProblemError `payment.refund` (refused)
 */
export function refuseRefund(
  session: Session,
  animalId: number,
  refund: { amountMinor: number; currency: string; hunterId: number | null },
): void {
  const { amountMinor, currency, hunterId } = refund;
  const payer = billShares(session, animalId, null).find((one) => one.hunterId === hunterId);
  const all = session.book.payments.paid(animalId);
  const own = payer && payer.paidMinor < all;
  const paidMinor = own ? payer.paidMinor : all;
  if (amountMinor <= paidMinor) return;
  throw new ProblemError('refused', 'payment.refund', {
    field: 'typed',
    with: { paidMinor, amountMinor, currency, ...(own && { payer: payer.name }) },
  });
}
