/** One animal's account: draft, active bill, payments, and differences from the quote. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { BillRecord } from '../../book/records/bills.ts';
import type { PaymentRecord } from '../../book/records/payments.ts';
import type { Charge, PriceLine } from '../../core/pricing/price.ts';
import { mayHaveOtherPrice } from '../../core/pricing/other-price.ts';
import { accountCurrency } from '../pricing/account.ts';
import { adjustmentRows } from './adjustment-rows.ts';
import { billShares } from './bill-shares.ts';
import { chargeOf } from './charge.ts';
import { extrasOf } from './extras.ts';
import { quoteBeside } from './quote.ts';
import { hunterOf } from '../animal/hunters.ts';
import { chargeableLines } from '../pricing/gaps.ts';
import { pricesOf } from '../pricing/prices-of.ts';
import type { Session } from '../session/session.ts';
import type { BillLineRow, BillView, BillRow, BillSums, PaymentRow } from '../contract/contract.ts';

export function billPage(session: Session, animal: AnimalRow): BillView {
  const prices = pricesOf(session, animal.id);
  const { charge, lacks, unpriced } = chargeOf(session, animal, prices);
  const draft = charge &&
    prices && {
      ...sumsOf(charge, prices),
      depositMinor: charge.depositMinor,
      exampleBook: prices.example,
    };
  const bills = session.book.bills.ofAnimal(animal.id);
  const standing = session.book.bills.standing(animal.id);
  const bill = standing ? billRow(session, standing) : null;
  const paidMinor = session.book.payments.paid(animal.id);
  const paidIn = accountCurrency(session, animal.id);
  // Money in another currency must be refunded before a bill can be made, so it is not offset against the draft.
  const isOther = !standing && paidMinor !== 0 && paidIn !== prices?.currency;
  const currency = standing?.currency ?? (isOther ? paidIn : (prices?.currency ?? session.settings.currency));
  const owed = bill ?? (isOther ? null : draft);
  const { name, address, phone } = hunterOf(session, animal.hunter_id);
  return {
    animalId: animal.id,
    ticket: animal.ticket,
    hunter: { name, address, phone },
    speciesName: session.species.of(animal.species).name,
    currency,
    paidIn,
    draft,
    lacks,
    unpriced,
    chargeable: chargeableLines(prices?.lines ?? [], animal),
    adjustable: adjustableLines(prices?.lines ?? [], charge),
    adjustments: adjustmentRows(session, animal.id, prices?.lines ?? []),
    extras: extrasOf(session, animal.id),
    bill,
    voidedBills: bills.filter((one) => one.void_at !== null).map((one) => billRow(session, one)),
    payments: session.book.payments.ofAnimal(animal.id).map(paymentRow),
    paidMinor,
    dueMinor: (owed?.totalMinor ?? 0) - paidMinor,
    shares: billShares(session, animal.id, owed),
    quote: quoteBeside(session, animal, owed),
  };
}

/** Draft lines whose price can be replaced, with the price of the price book. */
function adjustableLines(lines: readonly PriceLine[], charge: Charge | null): BillView['adjustable'] {
  return lines
    .filter(({ basis, code }) => mayHaveOtherPrice(basis) && charge?.lines.some((line) => line.code === code))
    .map(({ code, label, amountMinor = 0, unit = null }) => ({
      code,
      label,
      unitPriceMinor: amountMinor,
      unit,
    }));
}

export function sumsOf(
  { lines, subtotalMinor, taxMinor, totalMinor }: Charge,
  prices: { currency: string; lines: readonly PriceLine[] },
): BillSums {
  const unitOf = (code: string): 'lb' | 'kg' | null =>
    prices.lines.find((line) => line.code === code)?.unit ?? null;
  return {
    currency: prices.currency,
    lines: lines.map((line): BillLineRow => ({ ...line, unit: unitOf(line.code) })),
    subtotalMinor,
    taxMinor,
    totalMinor,
  };
}

function billRow(session: Session, bill: BillRecord): BillRow {
  return {
    id: bill.id,
    number: bill.number,
    billedOn: bill.billed_on,
    by: bill.by,
    currency: bill.currency,
    lines: session.book.bills.lines(bill.id).map((line) => ({
      code: line.code,
      label: line.label,
      basis: line.basis,
      quantity: line.quantity,
      unit: line.unit === 'lb' || line.unit === 'kg' ? line.unit : null,
      unitPriceMinor: line.unit_price_minor,
      amountMinor: line.amount_minor,
      taxMinor: line.tax_minor,
    })),
    subtotalMinor: bill.subtotal_minor,
    taxMinor: bill.tax_minor,
    totalMinor: bill.total_minor,
    voided: voidedBy(bill),
  };
}

/** A payment as windows show it. */
export function paymentRow(row: PaymentRecord): PaymentRow {
  const { id, kind, method, reference, amount_minor: amountMinor, currency, paid_on: paidOn, by } = row;
  const payer = row.hunter_id === null ? null : { id: row.hunter_id, name: row.payer ?? '' };
  return { id, kind, method, reference, amountMinor, currency, paidOn, payer, by, voided: voidedBy(row) };
}

function voidedBy(row: Pick<BillRecord, 'void_reason' | 'void_at' | 'void_by'>): BillRow['voided'] {
  return row.void_at === null
    ? null
    : { reason: row.void_reason ?? '', by: row.void_by ?? '', at: row.void_at };
}
