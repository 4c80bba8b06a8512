import type { BillLack, BillLineRow, BillState } from '../../../bridge/contract.ts';
import type { Format } from '../format.ts';
import { plural } from '../plural.ts';
import { chargesText } from './charges.ts';

const MORE_OR_LESS = ['more', 'less'] as const;

/** Texts of bills and payments. */
export const billText = {
  heading: (ticket: string) => `Bill for ${ticket}`,
  toPickup: 'Open Pickup',
  fetching: 'Fetching the bill …',
  bill: (number: number) => `Bill ${number}`,
  draft: 'Bill preview',
  made: (day: string, by: string) => (by ? `made on ${day} by ${by}` : `made on ${day}`),
  make: 'Make bill',
  makeAnyway: 'Bill it as it is',
  notYet: 'Not yet',
  done: (number: number) => `Bill ${number} is made.`,
  noPrices: 'No prices are in force. Enter your prices, and the bill is worked out from them.',
  toPrices: 'Open prices',
  example: 'These are the example prices that came with the program. Enter your own before you bill anyone.',
  nothing: 'The prices in force charge nothing for this animal.',
  what: 'Item',
  amount: 'Quantity',
  price: 'Price',
  sum: 'Amount',
  subtotal: 'Before tax',
  tax: 'Tax',
  total: 'Total',
  paid: 'Paid',
  due: 'Balance due',
  dueNow: 'Balance due',
  settled: 'Paid in full',
  another: 'Record another payment or a refund',
  giveBack: 'To be refunded',
  lacks: {
    hanging: 'The hanging weight is missing.',
    'trim-waiting': 'Some trim still waits for the grinder.',
    'open-batch': 'Its grind is not finished.',
    'nothing-packed': 'Nothing is packed yet.',
  } satisfies Record<BillLack, string>,
  print: 'Print bill',
  void: 'Void bill',
  voidReason: 'Reason',
  voidHint: 'Its number is not used again, and it can still be read. A new bill gets the next number.',
  takenBack: (number: number) => `Bill ${number} is voided.`,
  restored: (number: number) => `The bill is back as bill ${number}.`,
  leave: 'Cancel',
  earlier: 'Voided bills',
  earlierOne: (number: number, total: string, reason: string) => `Bill ${number}, ${total}: ${reason}`,
  quote: (name: string) => `Beside quote ${name}`,
  quoted: 'Quoted',
  billed: 'Billed',
  difference: 'Difference',
  within: (low: string, high: string) => `The quote said ${low} to ${high}: it came within that.`,
  outside: (low: string, high: string) => `The quote said ${low} to ${high}: it came outside of that.`,
  differs: (amount: string, more: boolean) => `${amount} ${MORE_OR_LESS[more ? 0 : 1]} than was most likely.`,
  same: 'Just what was most likely.',
  instead: (after: string, before: string, amount: string) => `${after} instead of ${before}: ${amount}`,
  insteadOfSum: (after: string, before: string, amount: string) =>
    `of ${after} instead of ${before}: ${amount}`,
  followsTax: 'follows from the lines above',
  followsMinimum: 'makes up what the other lines lack to the smallest charge',
  notQuoted: 'not in the quote',
  notCharged: 'quoted, not charged',
  noAmounts: 'the quote is from before amounts were kept',
  state: (number: number, how: string) => `Bill ${number}: ${how}.`,
  notBilled: 'Not billed yet.',
  stateDue: (amount: string) => `${amount} due`,
  statePaid: 'paid',
  stateBack: (amount: string) => `${amount} to refund`,
  toBill: 'Open bill',
  payments: 'Payments',
  noPayments: 'No payments yet.',
  pay: 'Take payment',
  typed: 'Amount',
  kind: 'Type',
  kinds: { payment: 'Payment', deposit: 'Deposit', refund: 'Refund' },
  method: 'Method',
  methods: { cash: 'Cash', card: 'Card', check: 'Check', transfer: 'Transfer', other: 'Other' },
  reference: 'Reference',
  checkNumber: 'Check number',
  receipt: 'Receipt',
  receiptOf: (amount: string) => `Receipt for ${amount}`,
  save: 'Save',
  saved: (kind: string, amount: string) => `${kind}: ${amount}.`,
  paymentVoided: 'Payment voided.',
  paymentRestored: 'The payment is back.',
  saveAnyway: 'Yes, save it',
  typeAgain: 'No, type it again',
  undone: 'undone',
  day: 'Day',
  voidPayment: 'Void',
  voidPaymentOf: (amount: string) => `Void ${amount}`,
  by: 'By',
  forHunter: 'For',
  species: 'Animal',
  shop: 'From',
} as const;

/** The name of a payment method; one that the shop added is shown as typed. */
export function methodName(method: string): string {
  return Object.entries(billText.methods).find(([code]) => code === method)?.[1] ?? method;
}

/** The code of a typed payment method: `Cash` becomes `cash`, a new one stays as typed. */
export function methodCode(typed: string): string {
  const name = typed.trim();
  return (
    Object.entries(billText.methods).find(([, known]) => known.toLowerCase() === name.toLowerCase())?.[0] ??
    name
  );
}

/**
 * The quantity of a line.
 * @example amountOf({ basis: 'hanging', quantity: 84.5, unit: 'lb', … }) // '84.50 lb'
 */
export function amountOf(line: Pick<BillLineRow, 'basis' | 'quantity' | 'unit'>, format: Format): string {
  if (line.unit) return `${format.number(line.quantity, 2)} ${line.unit}`;
  switch (line.basis) {
    case 'percent':
      return format.share(line.quantity);
    case 'hour':
      return chargesText.timeOf(Math.round(line.quantity * 60));
    case 'package':
      return plural(line.quantity, 'package', 'packages');
    default:
      return format.number(line.quantity, 0);
  }
}

/** The unit price; empty if the amount alone is enough. */
export function priceOf(
  line: Pick<BillLineRow, 'basis' | 'unitPriceMinor' | 'unit'>,
  format: Format,
): string {
  if (line.basis === 'percent' || line.basis === 'minimum') return '';
  const price = format.money(line.unitPriceMinor);
  return line.unit ? `${price} / ${line.unit}` : price;
}

/**
 * The billing state of an animal.
 * @example stateOf({ billed: true, number: 3, dueMinor: 4550, currency: 'USD' }, format) // 'Bill 3: $45.50 to pay.'
 */
export function stateOf({ number, dueMinor, currency }: BillState, format: Format): string {
  if (number === null) return billText.notBilled;
  if (dueMinor === 0) return billText.state(number, billText.statePaid);
  const amount = format.money(Math.abs(dueMinor), currency);
  return billText.state(number, dueMinor > 0 ? billText.stateDue(amount) : billText.stateBack(amount));
}
