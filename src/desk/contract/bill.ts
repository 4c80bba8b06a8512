/** Bills and payments. Money in minor units. */
import type { AdjustmentInput, PricedLine, Unpriced } from './price.ts';
import type { BillShare } from './share.ts';

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
  currency: string;
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

/** The state of an animal's bill, for a line beside it. */
export interface BillState {
  billed: boolean;
  /** Of the valid bill. */
  number: number | null;
  /** Balance due of it; negative: a refund. 0 without a bill. */
  dueMinor: number;
  currency: string;
}

export interface PaymentRow {
  id: number;
  kind: 'deposit' | 'payment' | 'refund';
  method: string;
  /** The number of a check, or what else tells it apart; may be empty. */
  reference: string;
  amountMinor: number;
  currency: string;
  paidOn: string;
  /** Which of several hunters paid; null: not said, so it counts for the first of them. */
  payer: { id: number; name: string } | null;
  by: string;
  voided: { reason: string; by: string; at: string } | null;
}

export type AdjustmentRow = AdjustmentInput & {
  id: number;
  /** The line that has another price, or that a product is charged as, by its words. */
  line: string | null;
  /** The name of the product that is charged as another line. */
  productName: string | null;
  /** The quote that it was promised in. */
  quote: string | null;
  at: string;
  by: string;
  voided: { reason: string; by: string; at: string } | null;
};

/** Hours of work on one animal, and the lines that charge by the hour. */
export interface WorkTimes {
  lines: PricedLine[];
  rows: WorkTimeRow[];
}

export interface WorkTimeRow {
  id: number;
  lineCode: string;
  /** Words of the line; its code where the prices in force do not have it. */
  label: string;
  minutes: number;
  at: string;
  by: string;
  voided: { reason: string; by: string; at: string } | null;
}

/** Why a bill cannot be made yet, or would be incomplete. */
export type BillLack = 'hanging' | 'trim-waiting' | 'open-batch' | 'nothing-packed';

/** One line of the quote beside the same line of the bill; a missing one is 0 on that side. */
export interface QuoteDifference {
  code: string;
  label: string;
  quotedMinor: number;
  billedMinor: number;
  differenceMinor: number;
  /** Quantity and price on each side; null where the line is missing, is the tax, or comes from an old quote. */
  quoted: LineCalculation | null;
  billed: LineCalculation | null;
  /**
   * The difference in two parts that sum to it: quantity and price. Null where they cannot be compared: the line is
   * on one side only, follows from the others (tax, minimum charge), or the quote is too old.
   */
  split: { moreMinor: number; priceMinor: number } | null;
}

/** Quantity and price of one line; for a percentage the rate, and its base. */
export interface LineCalculation {
  basis: string;
  quantity: number;
  unit: 'lb' | 'kg' | null;
  unitPriceMinor: number;
}

export interface BillView {
  animalId: number;
  ticket: string;
  hunter: { name: string; address: string; phone: string };
  speciesName: string;
  /**
   * Currency of the balance, the payments and the quote: that of the valid bill, or of money still to be refunded,
   * else of the current prices.
   */
  currency: string;
  /** Currency of its payments: that of the valid bill, or of the earlier payments. */
  paidIn: string;
  /** A bill made now; null without current prices. */
  draft: (BillSums & { depositMinor: number; exampleBook: boolean }) | null;
  lacks: BillLack[];
  /** What the draft charges nothing for, because no line in force is for it. */
  unpriced: Unpriced[];
  /** Lines that a product without a price may be charged as. */
  chargeable: { code: string; label: string }[];
  /** Lines of the draft whose price may be another one. */
  adjustable: { code: string; label: string; unitPriceMinor: number; unit: 'lb' | 'kg' | null }[];
  /** Free lines, discounts, other prices and choices for this animal, oldest first; those voided among them. */
  adjustments: AdjustmentRow[];
  /** Extras of the orders, with those that the prices in force have. */
  extras: (PricedLine & { quantity: number })[];
  /** The valid bill, and the voided ones before it, newest first. */
  bill: BillRow | null;
  voidedBills: BillRow[];
  payments: PaymentRow[];
  paidMinor: number;
  /** Balance due of the valid bill, or of the draft; negative: a refund. */
  dueMinor: number;
  /** The part of each of several hunters; empty where one has all of it. */
  shares: BillShare[];
  /** The quote of the animal, beside the bill or the draft; differences add up to the cent. */
  quote: {
    id: number;
    name: string;
    totalMinor: number;
    /** The quoted range. */
    lowMinor: number;
    highMinor: number;
    lines: QuoteDifference[];
  } | null;
}
