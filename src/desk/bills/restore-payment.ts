import * as v from 'valibot';
import { animalOf, refuseStage } from '../animal/closed.ts';
import { by, id } from '../input/input.ts';
import { localDate } from '../input/local-date.ts';
import { refuseRefund } from './bill-shares.ts';
import { refuseMorePayments, refuseVoidIn } from '../pricing/account.ts';
import { ProblemError } from '../contract/problem.ts';
import { write } from '../session/procedure.ts';

/**
 * Undoes the void of a payment: the same amount is entered again, dated on the day of the void, so that they cancel
 * out in that day's till and the till of the original day does not change. The voided row stays.
 * @throws ProblemError `payment.unknown`, `payment.not-voided`, `payment.restored` (conflict), `payment.refund`
 * (refunds would exceed payments), `payment.other-currency`, `payment.too-many`, `animal.closed` (refused)
 */
export const restorePayment = write(v.object({ paymentId: id, by }), (session, input) => {
  const old = session.book.payments.get(input.paymentId);
  if (!old) throw new ProblemError('missing', 'payment.unknown', { field: 'paymentId' });
  if (old.void_at === null) throw new ProblemError('conflict', 'payment.not-voided');
  const voidAt = old.void_at;
  const day = localDate(new Date(voidAt), session.settings.zone);
  const animal = animalOf(session, old.animal_id);
  refuseStage(animal, 'canceled');
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
        row.currency === old.currency &&
        row.paid_on === day,
    );
  if (again) throw new ProblemError('conflict', 'payment.restored');
  refuseVoidIn(session, old);
  refuseMorePayments(session, animal);
  const { amount_minor: amountMinor, currency, hunter_id: hunterId } = old;
  if (old.kind === 'refund') refuseRefund(session, animal.id, { amountMinor, currency, hunterId });
  const newId = session.book.payments.add({
    animalId: old.animal_id,
    billId: old.bill_id,
    kind: old.kind,
    method: old.method,
    reference: old.reference,
    amountMinor,
    currency,
    paidOn: day,
    hunterId,
    at: session.now(),
    by: input.by,
  });
  return { id: newId };
});
