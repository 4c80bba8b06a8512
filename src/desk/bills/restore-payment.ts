import * as v from 'valibot';
import { by, id } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import { write } from '../session/procedure.ts';

/**
 * Undoes the voiding of a payment: the same money is entered anew, on the day that it was taken. The voided row stays.
 * @throws ProblemError `payment.unknown`, `payment.not-voided`, `payment.restored` (conflict), `payment.refund` (refused: more
 * would be given back than was paid)
 */
export const restorePayment = write(v.object({ paymentId: id, by }), (session, input) => {
  const old = session.book.payments.get(input.paymentId);
  if (!old) throw new ProblemError('missing', 'payment.unknown', { field: 'paymentId' });
  if (old.void_at === null) throw new ProblemError('conflict', 'payment.not-voided');
  const voidAt = old.void_at;
  const again = session.book.payments
    .ofAnimal(old.animal_id)
    .some(
      (row) =>
        row.id > old.id &&
        row.void_at === null &&
        row.at >= voidAt &&
        row.kind === old.kind &&
        row.method === old.method &&
        row.amount_minor === old.amount_minor &&
        row.paid_on === old.paid_on,
    );
  if (again) throw new ProblemError('conflict', 'payment.restored');
  const paidMinor = session.book.payments.paid(old.animal_id);
  if (old.kind === 'refund' && old.amount_minor > paidMinor)
    throw new ProblemError('refused', 'payment.refund', {
      with: { paidMinor, amountMinor: old.amount_minor, currency: old.currency },
    });
  const newId = session.book.payments.add({
    animalId: old.animal_id,
    billId: old.bill_id,
    kind: old.kind,
    method: old.method,
    reference: old.reference,
    amountMinor: old.amount_minor,
    currency: old.currency,
    paidOn: old.paid_on,
    hunterId: old.hunter_id,
    at: session.now(),
    by: input.by,
  });
  return { id: newId };
});
