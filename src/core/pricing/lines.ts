/** The price book's lines, the amounts they are charged on, and which line is charged on what. */
import { decimalOf, quantityIn, type Decimal } from '../values/money-sums.ts';

/** What a line is charged by. */
export type Basis =
  | 'animal'
  | 'hanging'
  | 'ground'
  | 'product'
  | 'fat'
  | 'package'
  | 'hour'
  | 'extra'
  | 'percent'
  | 'minimum'
  | 'deposit';

export interface PriceLine {
  readonly code: string;
  readonly label: string;
  readonly basis: Basis;
  /** Price in minor units: per animal, per `unit` of weight, per package, per hour, once, or the minimum itself. */
  readonly amountMinor?: number;
  /** Fraction: of the subtotal for `percent` (−0.1 is a discount), of the total for a `deposit`. */
  readonly rate?: number;
  /** For the weight bases. */
  readonly unit?: 'lb' | 'kg';
  /** The line applies to these only; left out, to all. A line applies when every filter it has matches. */
  readonly species?: readonly string[];
  readonly brought?: readonly string[];
  /** Which product, fat or extra the line is for; needed for those bases. */
  readonly product?: string;
  readonly fatSource?: string;
  readonly extra?: string;
  /** Sales tax on this line as a fraction, e.g. 0.06; 0 when left out. Not used for `percent` and `deposit`. */
  readonly taxRate?: number;
}

/** What is charged for: predicted amounts make a quote, weighed ones a bill. Weights in grams. */
export interface Amounts {
  readonly species: string;
  readonly brought: string;
  /** Whole animals, all of that species and brought that way; 1 when left out. */
  readonly animals?: number;
  readonly hangingGrams: number;
  readonly groundGrams: number;
  /** Finished grams by product code, e.g. { 'summer-sausage': 4500 }. */
  readonly products?: Readonly<Record<string, number>>;
  /** Grams of fat added, by fat source code. */
  readonly fats?: Readonly<Record<string, number>>;
  readonly packages?: number;
  readonly hours?: number;
  /** Codes of the extras asked for. */
  readonly extras?: readonly string[];
}

/** Whether every filter of the line matches. Two lines that both match are both charged. */
export function applies(line: PriceLine, amounts: Amounts): boolean {
  return (
    (!line.species || line.species.includes(amounts.species)) &&
    (!line.brought || line.brought.includes(amounts.brought))
  );
}

/** The quantity that a line is charged on, in its own unit; null for lines that depend on other lines. */
export function quantityOf(line: PriceLine, amounts: Amounts): Decimal | null {
  const count = (value: number): Decimal => decimalOf(value, 'amounts');
  const weight = (grams: number): Decimal => quantityIn(grams, line.unit ?? 'lb');
  switch (line.basis) {
    case 'animal':
      return count(amounts.animals ?? 1);
    case 'hanging':
      return weight(amounts.hangingGrams);
    case 'ground':
      return weight(amounts.groundGrams);
    case 'product':
      return weight(amounts.products?.[line.product ?? ''] ?? 0);
    case 'fat':
      return weight(amounts.fats?.[line.fatSource ?? ''] ?? 0);
    case 'package':
      return count(amounts.packages ?? 0);
    case 'hour':
      return count(amounts.hours ?? 0);
    case 'extra':
      return count(amounts.extras?.includes(line.extra ?? '') ? 1 : 0);
    case 'percent':
    case 'minimum':
    case 'deposit':
      return null;
  }
}
