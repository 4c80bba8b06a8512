/** The columns of the accountant's files: the header row of each file, and the page that describes them. */
interface Column {
  name: string;
  means: string;
}

export const JOURNAL_COLUMNS: readonly Column[] = [
  { name: 'date', means: 'day of the document, YYYY-MM-DD; of a void the day on which it was voided' },
  {
    name: 'type',
    means: 'bill, deposit, payment or refund; with “void” behind it: its reversal, with every sign changed',
  },
  { name: 'number', means: 'number of the bill, or of the receipt of a payment' },
  { name: 'hunter', means: 'who is billed, or who paid' },
  { name: 'ticket', means: 'the animal’s ticket' },
  { name: 'description', means: 'the price line; for a payment its reference; for a void also the reason' },
  { name: 'net', means: 'amount of the line before tax; empty for payments' },
  {
    name: 'tax_rate',
    means:
      'as a fraction, 0.06 for 6 %; empty where a line is of several rates, such as a discount on lines with different rates',
  },
  { name: 'tax', means: 'tax of the line; empty for payments' },
  { name: 'payment', means: 'money taken in, below zero for money paid out; empty for bills' },
  { name: 'method', means: 'how it was paid: cash, check, card …' },
  { name: 'currency', means: 'ISO 4217 code; every amount of the row is in it' },
];

export const SUMMARY_COLUMNS: readonly Column[] = [
  { name: 'month', means: 'YYYY-MM; the first and the last month only as far as they belong to the span' },
  {
    name: 'section',
    means:
      'service: billed by price line. tax: billed by tax rate. payments, refunds: by method. These four have what was voided taken off already; voided bills and voided payments say how much of it was. open balance: billed less paid at the end of the month, deposits included',
  },
  { name: 'item', means: 'the price line, the tax rate (mixed: of several rates) or the method' },
  { name: 'net', means: 'billed before tax' },
  { name: 'tax', means: 'tax billed' },
  {
    name: 'amount',
    means: 'net and tax together; money taken in or, below zero, paid out; the open balance',
  },
  { name: 'currency', means: 'ISO 4217 code' },
];

/** The description for the accountant, as plain text. */
export function layoutText(): string {
  const list = (columns: readonly Column[]): string[] =>
    columns.map(({ name, means }) => `  ${name}: ${means}`);
  return [
    'Journal (journal-FROM-TO.csv), one row for each line of a bill and one for each payment:',
    ...list(JOURNAL_COLUMNS),
    '',
    'Monthly summary (monthly-summary-FROM-TO.csv):',
    ...list(SUMMARY_COLUMNS),
    '',
    'Both are CSV (RFC 4180) in UTF-8: comma between columns, decimal point, amounts in the currency and not in cents.',
    'A text that begins like a formula has an apostrophe in front.',
    '',
  ].join('\r\n');
}
