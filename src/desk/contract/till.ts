/** A day's till and open balances, as a window sees them. Money in minor units of the currency named beside it. */
import type { HunterLanguage } from '../../words/hunter-language.ts';
import type { PaymentRow } from './bill.ts';
import type { AnimalStage } from './words.ts';

export interface TillEntry {
  paymentId: number;
  what: 'payment' | 'void';
  ticket: string;
  hunter: string;
  kind: PaymentRow['kind'];
  method: string;
  reference: string;
  /** What it adds to the till: below zero for a refund, and for the void of a payment. */
  minor: number;
  /** Day of the payment; for a void the day of the void. */
  day: string;
  at: string;
  by: string;
  /** Why it was voided; empty for a payment. */
  reason: string;
}

/** What one person took and gave back by one method. */
export interface TillSum {
  method: string;
  /** Initials; null for the sum of a method over all persons. */
  by: string | null;
  count: number;
  paidMinor: number;
  /** Zero or below. */
  refundedMinor: number;
  /** What voids add: below zero where payments were voided. */
  voidedMinor: number;
  totalMinor: number;
}

export interface TillClosing {
  id: number;
  number: number;
  countedMinor: number;
  overMinor: number;
  note: string;
  /** As it was counted. */
  counted: TillCount;
  at: string;
  by: string;
}

/** A total as typed, or how many pieces of each denomination (in minor units). */
export type TillCount = { total: string } | { pieces: [denominationMinor: number, count: number][] };

export interface TillView {
  day: string;
  currency: string;
  /** All that the day has entries or a closing in, and the shop's own. */
  currencies: string[];
  /** What counts in this till, oldest first. */
  entries: TillEntry[];
  /** Of the entries: those of earlier days, entered after those were closed. */
  carried: TillEntry[];
  /** Entered after this day was closed; each counts in the next till that is closed. */
  afterClosing: TillEntry[];
  sums: TillSum[];
  totalMinor: number;
  floatMinor: number;
  /** Whether the float was entered for this day; else it is that of an earlier day. */
  floatEntered: boolean;
  /** Late cash of earlier days that lay in the drawer when this day's float was counted, so that the float holds it. */
  inFloatMinor: number;
  /** Cash payments less cash refunds, voids taken into account, without what the float holds already. */
  cashMinor: number;
  /** Float and cash. */
  expectedMinor: number;
  closing: TillClosing | null;
  voidedClosings: { number: number; reason: string; at: string; by: string }[];
  /** Earlier days of the last two weeks with payments that are not closed, newest first. */
  openDays: string[];
  /** The newest closings. */
  recent: { day: string; number: number; overMinor: number; by: string }[];
}

export interface OpenAnimal {
  animalId: number;
  ticket: string;
  speciesName: string;
  stage: AnimalStage;
  bill: number;
  billedOn: string;
  ageDays: number;
  currency: string;
  /** Of an animal that several hunters share: whether money and packages are this hunter's part. */
  shared: boolean;
  totalMinor: number;
  paidMinor: number;
  /** Above zero: owed to the shop; below: to be refunded. */
  dueMinor: number;
  packages: number;
  grams: number;
  /** Newest reminder or call, or null. */
  lastCall: { text: string; at: string; by: string } | null;
}

/** One hunter's open balances, oldest bill first. Of a shared animal each hunter has a part; the parts sum to its balance. */
export interface OpenAccount {
  hunterId: number;
  hunter: string;
  phone: string;
  animals: OpenAnimal[];
  /** One sum for each currency. */
  due: { currency: string; dueMinor: number }[];
}

/** What one hunter owes, document by document; of a shared animal that hunter's part and payments. */
export interface Statement {
  hunterId: number;
  hunter: string;
  /** Of what the hunter gets; '' for the shop's. */
  language: HunterLanguage | '';
  address: string;
  phone: string;
  on: string;
  accounts: {
    currency: string;
    lines: {
      date: string;
      what: 'bill' | PaymentRow['kind'];
      number: number;
      ticket: string;
      /** Of a bill that several hunters share: all of it, of which `minor` is this hunter's part; else null. */
      wholeMinor: number | null;
      /** Above zero what was charged, below what was paid. */
      minor: number;
      balanceMinor: number;
    }[];
    dueMinor: number;
  }[];
}
