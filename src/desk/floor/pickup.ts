import type { PickupShare } from '../contract/contract.ts';
import { withoutPhone } from './hunter.ts';

interface Waiting {
  phone: string;
  number: number | null;
  dueMinor: number;
  currency: string;
  calls: unknown[];
  notices: unknown[];
  shares: PickupShare[];
}

const shareForFloor = (share: PickupShare): PickupShare => ({ ...withoutPhone(share), dueMinor: 0 });

/** Of `pickup.get`: whose packages lie where. What is due, and who was called how, stays with the office. */
export const pickupForFloor = <T extends Waiting>(rows: T[]): T[] =>
  rows.map((row) => ({
    ...withoutPhone(row),
    number: null,
    dueMinor: 0,
    currency: '',
    calls: [],
    notices: [],
    shares: row.shares.map(shareForFloor),
  }));
