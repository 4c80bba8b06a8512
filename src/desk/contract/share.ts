/** Hunters who share one animal. */

export type ShareBasis = 'percent' | 'pounds' | 'pieces';

/** One of several hunters of an animal. The first is whoever payments without a name count for. */
export interface Sharer {
  hunterId: number;
  name: string;
  phone: string;
  /** The part as it was typed, in percent, pounds or pieces. */
  typed: string;
  basis: ShareBasis;
  /** Fraction of the whole. */
  share: number;
}

/** A sharer's part of the money, in minor units. The parts of all sum to the whole. */
export interface BillShare extends Sharer {
  totalMinor: number;
  taxMinor: number;
  paidMinor: number;
  /** Still to pay; below zero: to be given back. */
  dueMinor: number;
}

/** A sharer's part of the packages at pickup. The parts of all sum to the whole. */
export interface PickupShare extends Sharer {
  rows: { product: string; batch: string | null; count: number; grams: number }[];
  packages: number;
  grams: number;
  dueMinor: number;
  /** To whom and when it was handed over; null while it is here. */
  taken: { id: number; to: string; on: string } | null;
}
