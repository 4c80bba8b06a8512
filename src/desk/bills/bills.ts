import * as v from 'valibot';
import { parseMoney } from '../../core/values/money.ts';
import { applies } from '../../core/pricing/lines.ts';
import { adjustmentRows } from './adjustment-rows.ts';
import { accountCurrency, refuseBillIn, refuseMorePayments, refuseVoidIn } from '../pricing/account.ts';
import { refuseBilled, refuseMoreBills } from './billed.ts';
import { billPage, sumsOf } from './bill-page.ts';
import { refuseRefund } from './bill-shares.ts';
import { chargeOf } from './charge.ts';
import { by, id, needed, confirmed, text } from '../input/input.ts';
import { pricesOf } from '../pricing/prices-of.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { AdjustmentRow, BillView } from '../contract/contract.ts';
import { animalOf, refuseStage } from '../animal/closed.ts';

const asked = { animalId: id };

/** The draft, the active bill, and payments. */
export const get = read(v.object(asked), (session, input): BillView =>
  billPage(session, animalOf(session, input.animalId)),
);

/**
 * Makes the bill: numbered, and frozen with current prices and weights.
 * @throws ProblemError `bill.stands`, `bill.no-prices`, `bill.other-currency`, `bill.paid-in-other-currency`,
 * `bill.no-hanging`, `bill.below-zero`, `animal.closed` (refused); `bill.unpriced`, `bill.price-unused`,
 * `bill.not-weighed` (conflict: pass `confirmed`)
 */
export const create = write(v.object({ ...asked, confirmed, by }), (session, input) => {
  const animal = animalOf(session, input.animalId);
  refuseBilled(session, animal);
  refuseMoreBills(session, animal);
  const prices = pricesOf(session, animal.id);
  if (!prices) throw new ProblemError('refused', 'bill.no-prices');
  refuseBillIn(session, prices.currency, animal);
  const { charge, amounts, lacks, unpriced, pricesUnused } = chargeOf(session, animal, prices);
  if (!charge) throw new ProblemError('refused', 'bill.no-prices');
  if (
    lacks.includes('hanging') &&
    prices.lines.some((line) => line.basis === 'hanging' && applies(line, amounts))
  )
    throw new ProblemError('refused', 'bill.no-hanging', { with: { ticket: animal.ticket } });
  const [nothing] = unpriced;
  if (nothing && !input.confirmed)
    throw new ProblemError('conflict', 'bill.unpriced', {
      with: { what: nothing.name, count: unpriced.length - 1 },
    });
  const [unused] = pricesUnused;
  if (unused !== undefined && !input.confirmed)
    throw new ProblemError('conflict', 'bill.price-unused', {
      with: {
        line: adjustmentRows(session, animal.id, prices.lines).find(isFor(unused))?.line ?? unused,
        count: pricesUnused.length - 1,
      },
    });
  const lack = lacks.find((one) => one !== 'hanging');
  if (lack && !input.confirmed)
    throw new ProblemError('conflict', 'bill.not-weighed', { with: { ticket: animal.ticket, lack } });
  if (charge.totalMinor < 0)
    throw new ProblemError('refused', 'bill.below-zero', { with: { ticket: animal.ticket } });
  const { lines } = sumsOf(charge, prices);
  return session.book.bills.add(
    {
      animalId: animal.id,
      priceBookId: prices.id,
      quoteId: session.book.quotes.ofAnimal(animal.id)?.id ?? null,
      amounts,
      currency: prices.currency,
      subtotalMinor: charge.subtotalMinor,
      taxMinor: charge.taxMinor,
      totalMinor: charge.totalMinor,
      billedOn: session.today(),
      at: session.now(),
      by: input.by,
    },
    lines.map((line) => ({
      code: line.code,
      label: line.label,
      basis: line.basis,
      quantity: line.quantity,
      unit: line.unit,
      unit_price_minor: line.unitPriceMinor,
      amount_minor: line.amountMinor,
      tax_minor: line.taxMinor,
    })),
  );
});

const isFor = (code: string) => (row: AdjustmentRow) => row.kind === 'other price' && row.lineCode === code;

/**
 * Voids a bill with a reason. It stays readable and its number is not reused. @throws ProblemError `bill.voided`,
 * `bill.unknown`
 */
const voidBill = write(v.object({ billId: id, reason: needed(300), by }), (session, input) => {
  const bill = session.book.bills.get(input.billId);
  if (!bill) throw new ProblemError('missing', 'bill.unknown', { field: 'billId' });
  if (bill.void_at !== null)
    throw new ProblemError('conflict', 'bill.voided', {
      with: { number: bill.number, reason: bill.void_reason ?? '' },
    });
  session.book.bills.void(bill.id, input.reason, session.now(), input.by);
  session.book.audit.note({
    record: 'bill',
    recordId: bill.id,
    act: 'void',
    before: { number: bill.number, totalMinor: bill.total_minor },
    reason: input.reason,
    at: session.now(),
    by: input.by,
  });
  return { billId: bill.id };
});
export { voidBill as void };

/**
 * Enters a payment or a refund.
 * @throws ValidationError `money.*`; ProblemError `payment.zero`, `payment.too-many`, `payment.refund`;
 * `payment.over` (conflict: pass `confirmed`)
 */
export const pay = write(
  v.object({
    animalId: id,
    kind: v.picklist(['deposit', 'payment', 'refund'], 'choice.payment'),
    method: needed(40),
    reference: text(60),
    typed: text(30),
    /** Which of several hunters pays. */
    hunterId: v.optional(v.nullable(id), null),
    confirmed,
    by,
  }),
  (session, input) => {
    const animal = animalOf(session, input.animalId);
    refuseStage(animal, 'canceled');
    const currency = accountCurrency(session, animal.id);
    const amountMinor = parseMoney(input.typed, currency);
    if (amountMinor <= 0) throw new ProblemError('invalid', 'payment.zero', { field: 'typed' });
    refuseMorePayments(session, animal);
    const { bill, dueMinor, shares } = billPage(session, animal);
    const payers = [animal.hunter_id, ...shares.map(({ hunterId }) => hunterId)];
    if (input.hunterId !== null && !payers.includes(input.hunterId))
      throw new ProblemError('refused', 'payment.not-sharer', {
        field: 'hunterId',
        with: { ticket: animal.ticket },
      });
    if (input.kind === 'refund')
      refuseRefund(session, animal.id, { amountMinor, currency, hunterId: input.hunterId });
    if (input.kind === 'payment' && bill && amountMinor > dueMinor && !input.confirmed)
      throw new ProblemError('conflict', 'payment.over', {
        field: 'typed',
        with: { dueMinor, amountMinor, currency },
      });
    return {
      id: session.book.payments.add({
        animalId: animal.id,
        billId: bill?.id ?? null,
        kind: input.kind,
        method: input.method,
        reference: input.reference,
        amountMinor,
        currency,
        paidOn: session.today(),
        hunterId: input.hunterId,
        at: session.now(),
        by: input.by,
      }),
    };
  },
);

/**
 * Voids a mistaken payment. A refunded one cannot be voided before its refund.
 * @throws ProblemError `payment.unknown`, `payment.voided`, `payment.given-back`, `payment.other-currency`
 */
export const voidPayment = write(v.object({ paymentId: id, reason: needed(300), by }), (session, input) => {
  const payment = session.book.payments.get(input.paymentId);
  if (!payment) throw new ProblemError('missing', 'payment.unknown', { field: 'paymentId' });
  if (payment.void_at !== null)
    throw new ProblemError('conflict', 'payment.voided', { with: { reason: payment.void_reason ?? '' } });
  refuseVoidIn(session, payment);
  const paidMinor = session.book.payments.paid(payment.animal_id);
  if (payment.kind !== 'refund' && paidMinor < payment.amount_minor)
    throw new ProblemError('refused', 'payment.given-back', {
      with: { amountMinor: payment.amount_minor, paidMinor, currency: payment.currency },
    });
  session.book.payments.void(payment.id, input.reason, session.now(), input.by);
  session.book.audit.note({
    record: 'payment',
    recordId: payment.id,
    act: 'void',
    before: { kind: payment.kind, amountMinor: payment.amount_minor },
    reason: input.reason,
    at: session.now(),
    by: input.by,
  });
  return { paymentId: payment.id };
});
