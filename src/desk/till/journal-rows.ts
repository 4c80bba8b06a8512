/** Bills, payments and their voids as journal lines. */
import type { JournalDocument, JournalLine } from '../../book/records/money/journal.ts';

/** One journal line. Amounts in minor units; a void has the opposite signs of what it voids. */
export interface JournalRow {
  date: string;
  type: string;
  number: number;
  hunter: string;
  ticket: string;
  description: string;
  /** Label of the price line; empty for a payment. Not a column of the file. */
  service: string;
  netMinor: number;
  taxRate: number | null;
  taxMinor: number;
  paymentMinor: number;
  method: string;
  currency: string;
}

/** Bases of lines that are a percentage of other lines. */
const OF_OTHERS: readonly string[] = ['percent', 'discount'];

/** The lines of one document; a payment is one line. `date` is the date of the document, or of its void. */
export function journalRows(
  document: JournalDocument,
  date: string,
  lines: readonly JournalLine[],
): JournalRow[] {
  const { what, number, hunter, ticket, currency, reference, method, reason } = document;
  const sign = reason === null ? 1 : -1;
  const row = {
    date,
    type: reason === null ? what : `${what} void`,
    number,
    hunter,
    ticket,
    method,
    currency,
    service: '',
    netMinor: 0,
    taxRate: null,
    taxMinor: 0,
    paymentMinor: 0,
  };
  if (what !== 'bill')
    return [
      {
        ...row,
        description: [reference, reason].filter(Boolean).join('; '),
        paymentMinor: withoutMinusZero(sign * document.minor),
      },
    ];
  return lines.map((line) => ({
    ...row,
    description: [line.label, reason].filter(Boolean).join('; '),
    service: line.label,
    netMinor: withoutMinusZero(sign * line.amount_minor),
    taxRate: line.tax_rate ?? soleRate(line, lines),
    taxMinor: withoutMinusZero(sign * line.tax_minor),
  }));
}

/**
 * The tax rate of everything that a percentage or discount applies to; null if there are several. A percentage does
 * not apply to the minimum charge.
 */
function soleRate({ basis }: JournalLine, lines: readonly JournalLine[]): number | null {
  const of = lines.filter(
    (one) => !OF_OTHERS.includes(one.basis) && (basis !== 'percent' || one.basis !== 'minimum'),
  );
  const [rate = null, ...others] = new Set(of.map((one) => one.tax_rate));
  return others.length === 0 ? rate : null;
}

const withoutMinusZero = (minor: number): number => (minor === 0 ? 0 : minor);
