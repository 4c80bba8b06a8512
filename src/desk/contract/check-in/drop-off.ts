/** The receipt that a hunter takes home at drop-off. Money in minor units, masses in grams. */
import type { PaymentRow } from '../bill.ts';
import type { Instructions } from '../instructions.ts';

export interface DropOff {
  animalId: number;
  /** As ordered; null while nobody asked the hunter. */
  orders: Instructions | null;
  /** What the hunter was quoted for this animal, or null. */
  quote: {
    name: string;
    currency: string;
    lowMinor: number;
    meanMinor: number;
    highMinor: number;
  } | null;
  /** What has been paid so far; voided payments are left out. */
  payments: PaymentRow[];
  paidMinor: number;
  /** Of the payments. */
  currency: string;
  /** What the price book still asks for in advance, in that currency; 0 for nothing. */
  depositMinor: number;
}
