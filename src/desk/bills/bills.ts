import * as v from 'valibot';
import { parseMoney } from '../../core/values/money.ts';
import { applies } from '../../core/pricing/lines.ts';
import { priceLines } from '../../core/pricing/price.ts';
import { accountCurrency, refuseBillIn, refuseVoidIn } from '../pricing/account.ts';
import { weighedAmounts } from './amounts.ts';
import { billLook, sumsOf } from './look.ts';
import { by, id, listOf, needed, sure, text } from '../input/input.ts';
import { pricesInForce } from '../pricing/prices.ts';
import { read, write } from '../session/procedure.ts';
import { Trouble } from '../contract/problem.ts';
import type { BillLook } from '../contract/contract.ts';
import { animalOf } from '../animal/closed.ts';

/** Of one animal, those taken back included; all of them are read with its bill. */
const MOST_PAYMENTS = 500;
const MOST_BILLS = 100;

const asked = {
  animalId: id,
  hours: v.optional(
    v.pipe(v.number('hours.range'), v.minValue(0, 'hours.range'), v.maxValue(500, 'hours.range')),
  ),
  extras: v.optional(listOf(needed(40), 30)),
};

/** What a bill would say now, the one that stands, and what was paid. */
export const look = read(v.object(asked), (room, input): BillLook =>
  billLook(room, animalOf(room, input.animalId), input),
);

/**
 * Makes the bill: numbered, frozen with the prices and the weights of the moment. @throws Trouble `bill.stands`,
 * `bill.no-prices`, `bill.other-currency`, `bill.paid-in-other-currency`, `bill.no-hanging`, `bill.below-zero`,
 * `animal.closed` (refused); `bill.not-weighed` (ask)
 */
export const make = write(v.object({ ...asked, sure, by }), (room, input) => {
  const animal = animalOf(room, input.animalId);
  if (animal.stage === 'disposed')
    throw new Trouble('refused', 'animal.closed', { with: { ticket: animal.ticket, stage: animal.stage } });
  const bills = room.book.bills.ofAnimal(animal.id);
  const standing = bills.find((bill) => bill.void_at === null);
  if (standing) throw new Trouble('refused', 'bill.stands', { with: { number: standing.number } });
  if (bills.length >= MOST_BILLS)
    throw new Trouble('refused', 'bill.too-many', { with: { ticket: animal.ticket, count: MOST_BILLS } });
  const prices = pricesInForce(room);
  if (!prices) throw new Trouble('refused', 'bill.no-prices');
  refuseBillIn(room, prices.currency, animal);
  const { amounts, lacks } = weighedAmounts(room, animal, prices.lines, input);
  if (
    lacks.includes('hanging') &&
    prices.lines.some((line) => line.basis === 'hanging' && applies(line, amounts))
  )
    throw new Trouble('refused', 'bill.no-hanging', { with: { ticket: animal.ticket } });
  const lack = lacks.find((one) => one !== 'hanging');
  if (lack && !input.sure)
    throw new Trouble('conflict', 'bill.not-weighed', { with: { ticket: animal.ticket, lack } });
  const charge = priceLines({ lines: prices.lines, amounts, taxRule: prices.taxRule });
  if (charge.totalMinor < 0)
    throw new Trouble('refused', 'bill.below-zero', { with: { ticket: animal.ticket } });
  const { lines } = sumsOf(charge, prices);
  return room.book.bills.add(
    {
      animalId: animal.id,
      priceBookId: prices.id,
      quoteId: room.book.quotes.ofAnimal(animal.id)?.id ?? null,
      amounts,
      currency: prices.currency,
      subtotalMinor: charge.subtotalMinor,
      taxMinor: charge.taxMinor,
      totalMinor: charge.totalMinor,
      billedOn: room.today(),
      at: room.now(),
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

/** Takes a bill back with a reason; its number stays used and it stays to be read. @throws Trouble `bill.voided`, `bill.unknown` */
const voidBill = write(v.object({ billId: id, reason: needed(300), by }), (room, input) => {
  const bill = room.book.bills.get(input.billId);
  if (!bill) throw new Trouble('missing', 'bill.unknown', { field: 'billId' });
  if (bill.void_at !== null)
    throw new Trouble('conflict', 'bill.voided', {
      with: { number: bill.number, reason: bill.void_reason ?? '' },
    });
  room.book.bills.void(bill.id, input.reason, room.now(), input.by);
  room.book.audit.note({
    record: 'bill',
    recordId: bill.id,
    act: 'void',
    before: { number: bill.number, totalMinor: bill.total_minor },
    reason: input.reason,
    at: room.now(),
    by: input.by,
  });
  return { billId: bill.id };
});
export { voidBill as void };

/** Money taken or given back, as typed. @throws CoreProblem `money.*`; Trouble `payment.zero`, `payment.too-many`, `payment.over` (ask), `payment.refund` */
export const pay = write(
  v.object({
    animalId: id,
    kind: v.picklist(['deposit', 'payment', 'refund'], 'choice.payment'),
    method: needed(40),
    typed: text(30),
    sure,
    by,
  }),
  (room, input) => {
    const animal = animalOf(room, input.animalId);
    const currency = accountCurrency(room, animal.id);
    const amountMinor = parseMoney(input.typed, currency);
    if (amountMinor <= 0) throw new Trouble('invalid', 'payment.zero', { field: 'typed' });
    if (room.book.payments.count(animal.id) >= MOST_PAYMENTS)
      throw new Trouble('refused', 'payment.too-many', {
        with: { ticket: animal.ticket, count: MOST_PAYMENTS },
      });
    const { bill, dueMinor, paidMinor } = billLook(room, animal, {});
    if (input.kind === 'refund' && amountMinor > paidMinor)
      throw new Trouble('refused', 'payment.refund', {
        field: 'typed',
        with: { paidMinor, amountMinor, currency },
      });
    if (input.kind === 'payment' && bill && amountMinor > dueMinor && !input.sure)
      throw new Trouble('conflict', 'payment.over', {
        field: 'typed',
        with: { dueMinor, amountMinor, currency },
      });
    return {
      id: room.book.payments.add({
        animalId: animal.id,
        billId: bill?.id ?? null,
        kind: input.kind,
        method: input.method,
        amountMinor,
        currency,
        paidOn: room.today(),
        at: room.now(),
        by: input.by,
      }),
    };
  },
);

/**
 * Takes a payment back that was written wrongly. One that was given back meanwhile stays until the refund is voided.
 * @throws Trouble `payment.unknown`, `payment.voided`, `payment.given-back`, `payment.other-currency`
 */
export const voidPayment = write(v.object({ paymentId: id, reason: needed(300), by }), (room, input) => {
  const payment = room.book.payments.get(input.paymentId);
  if (!payment) throw new Trouble('missing', 'payment.unknown', { field: 'paymentId' });
  if (payment.void_at !== null)
    throw new Trouble('conflict', 'payment.voided', { with: { reason: payment.void_reason ?? '' } });
  refuseVoidIn(room, payment);
  const paidMinor = room.book.payments.paid(payment.animal_id);
  if (payment.kind !== 'refund' && paidMinor < payment.amount_minor)
    throw new Trouble('refused', 'payment.given-back', {
      with: { amountMinor: payment.amount_minor, paidMinor, currency: payment.currency },
    });
  room.book.payments.void(payment.id, input.reason, room.now(), input.by);
  room.book.audit.note({
    record: 'payment',
    recordId: payment.id,
    act: 'void',
    before: { kind: payment.kind, amountMinor: payment.amount_minor },
    reason: input.reason,
    at: room.now(),
    by: input.by,
  });
  return { paymentId: payment.id };
});
