/** Meat that is donated, meat that goes back as it came, and notices to hunters who do not come. */

export type NoticeStep = 'first' | 'second' | 'last';
export type NoticeHow = 'letter' | 'call' | 'message';

/** A program that takes meat, as the shop has it in its settings. */
export interface DonationProgram {
  name: string;
  /** What it pays the shop per unit of meat, in minor units; 0: nothing. */
  paysMinor: number;
  paysUnit: 'lb' | 'kg';
}

export interface DonationRow {
  id: number;
  animalId: number;
  ticket: string;
  hunter: string;
  program: string;
  whole: boolean;
  typed: string;
  grams: number;
  /** The program's confirmation number. */
  confirmation: string;
  /** What the program owes the shop for it, in minor units. */
  owesMinor: number;
  currency: string;
  on: string;
  why: 'hunter' | 'unclaimed';
  note: string;
  by: string;
}

/** Donations of a season, and their sums by program, month and currency. */
export interface DonationsView {
  rows: DonationRow[];
  months: {
    /** `YYYY-MM`. */
    month: string;
    program: string;
    count: number;
    grams: number;
    owesMinor: number;
    currency: string;
  }[];
}

export interface PickupNotice {
  id: number;
  step: NoticeStep;
  how: NoticeHow;
  on: string;
  note: string;
  by: string;
}
