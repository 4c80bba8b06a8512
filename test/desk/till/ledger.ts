/** A second set of books, kept by plain addition beside the desk's: what was billed and paid, on which day. */

export interface KeptBill {
  id: number;
  number: number;
  netMinor: number;
  taxMinor: number;
  day: string;
  voidDay: string | null;
}

export interface KeptPayment {
  id: number;
  kind: 'deposit' | 'payment' | 'refund';
  method: string;
  minor: number;
  day: string;
  payer: number | null;
  voidDay: string | null;
}

/** What an animal is charged by, and its money. */
export interface Kept {
  animalId: number;
  owner: number;
  sharer: number | null;
  /** Hundredths of a pound. */
  hanging: number;
  minutes: number;
  capes: number;
  percentOff: number[];
  amountsOff: number[];
  free: { minor: number; rate: number }[];
  skinPrice: number | null;
  /** Whether anything charged changed since its newest bill was voided. */
  changed: boolean;
  bills: KeptBill[];
  payments: KeptPayment[];
}

export interface Entry {
  day: string;
  type: string;
  number: number;
  method: string;
  minor: number;
}

export const sum = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0);
export const signed = ({ kind, minor }: KeptPayment): number => (kind === 'refund' ? -minor : minor);
export const standing = ({ bills }: Kept): KeptBill | undefined =>
  bills.find(({ voidDay }) => voidDay === null);
export const totalOf = (bill: KeptBill | undefined): number => (bill ? bill.netMinor + bill.taxMinor : 0);
export const paid = ({ payments }: Kept): number =>
  sum(payments.filter(({ voidDay }) => voidDay === null).map(signed));

/** Every document and every void, each with its sign. */
export function entriesOf(animals: readonly Kept[]): Entry[] {
  return animals.flatMap(({ bills, payments }) => [
    ...bills.flatMap((bill) => {
      const entry = { number: bill.number, method: '', minor: totalOf(bill) };
      return withVoid({ ...entry, type: 'bill', day: bill.day }, bill.voidDay);
    }),
    ...payments.flatMap((one) =>
      withVoid(
        { day: one.day, type: one.kind, number: one.id, method: one.method, minor: signed(one) },
        one.voidDay,
      ),
    ),
  ]);
}

function withVoid(entry: Entry, voidDay: string | null): Entry[] {
  if (voidDay === null) return [entry];
  return [entry, { ...entry, type: `${entry.type} void`, day: voidDay, minor: -entry.minor }];
}

/** n / d, halves away from zero. */
export function rounded(n: bigint, d: bigint): number {
  const size = n < 0n ? -n : n;
  const whole = Number((2n * size + d) / (2n * d));
  return n < 0n && whole !== 0 ? -whole : whole;
}

export interface Prices {
  cut: number;
  skin: number;
  cape: number;
  hour: number;
  least: number;
  /** In thousandths of the sum. */
  early: number;
  /** Of cut, cape and the smallest charge; skinning and hours are not taxed. In thousandths. */
  tax: number;
}

/**
 * A bill by hand: the sum before tax to the cent, and what tax comes to before rounding, when discounts are of all rates in
 * proportion.
 */
export function billed(animal: Kept, prices: Prices): { net: number; tax: number } {
  const cut = rounded(BigInt(prices.cut) * BigInt(animal.hanging), 100n);
  const skin = animal.skinPrice ?? prices.skin;
  const work = rounded(BigInt(prices.hour) * BigInt(animal.minutes), 60n);
  const cape = prices.cape * animal.capes;
  const free = sum(animal.free.map(({ minor }) => minor));
  const own = cut + skin + work + cape + free;
  const early = rounded(BigInt(own) * BigInt(prices.early), 1000n);
  const rate = prices.tax / 1000;
  const earlier = own === 0 ? 0 : 1 + early / own;
  const lifted = Math.max(0, prices.least - own - early);
  const whole = own + early + lifted;
  const off = whole > 0 ? -rounded(BigInt(whole) * BigInt(sum(animal.percentOff)), 1000n) : 0;
  const net = Math.max(whole + off - sum(animal.amountsOff), Math.min(whole, 0));
  const taxed =
    ((cut + cape) * rate + sum(animal.free.map((one) => (one.minor * one.rate) / 1000))) * earlier +
    lifted * rate;
  return { net, tax: whole > 0 ? (taxed * net) / whole : taxed };
}
