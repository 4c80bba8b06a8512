/** Bills and payments, as a window sees them. Money in minor units. */

export interface BillLineRow {
  code: string;
  label: string;
  basis: string;
  /** In the unit of the line; for a percentage the rate. */
  quantity: number;
  unit: 'lb' | 'kg' | null;
  unitPriceMinor: number;
  amountMinor: number;
  taxMinor: number;
}

export interface BillSums {
  lines: BillLineRow[];
  subtotalMinor: number;
  taxMinor: number;
  totalMinor: number;
}

export interface BillRow extends BillSums {
  id: number;
  number: number;
  billedOn: string;
  by: string;
  voided: { reason: string; by: string; at: string } | null;
}

export interface PaymentRow {
  id: number;
  kind: 'deposit' | 'payment' | 'refund';
  method: string;
  amountMinor: number;
  paidOn: string;
  by: string;
  voided: { reason: string; by: string; at: string } | null;
}

/** Why a bill cannot be made yet, or would be short. */
export type BillLack = 'hanging' | 'trim-waiting' | 'open-batch' | 'nothing-packed';

/** One line of the quote beside the same line of the bill; what only one of them has is 0 in the other. */
export interface QuoteDifference {
  code: string;
  label: string;
  quotedMinor: number;
  billedMinor: number;
  differenceMinor: number;
}

export interface BillLook {
  animalId: number;
  ticket: string;
  hunter: { name: string; address: string; phone: string };
  speciesName: string;
  currency: string;
  /** What a bill made now would say; null where no prices are in force. */
  draft: (BillSums & { depositMinor: number; exampleBook: boolean }) | null;
  lacks: BillLack[];
  /** The bill that stands, and those voided before it, newest first. */
  bill: BillRow | null;
  voidedBills: BillRow[];
  payments: PaymentRow[];
  paidMinor: number;
  /** Still to pay of the standing bill, or of the draft; below zero: to be given back. */
  dueMinor: number;
  /** The quote that the animal came of, beside the bill or the draft; differences add up to the cent. */
  quote: {
    id: number;
    name: string;
    totalMinor: number;
    /** The range that was said. */
    lowMinor: number;
    highMinor: number;
    lines: QuoteDifference[];
  } | null;
}
