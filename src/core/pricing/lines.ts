/** The price book's lines, the amounts they are charged on, and which line is charged on what. */
import type { ProductKind } from '../../trade/product.ts';
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
  | 'deposit'
  /** Of one bill or quote, in no price book: a charge in free words, and an amount off. */
  | 'free'
  | 'discount';

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
  /** Codes of the products, and kinds of product, that a `product` line is for; it needs one of either. */
  readonly products?: readonly string[];
  readonly kinds?: readonly ProductKind[];
  /** Which fat or extra the line is for; needed for those bases. */
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
  /** What is ground and is no product of its own. */
  readonly groundGrams: number;
  /** Finished grams by product code, e.g. { 'summer-sausage': 4500 }; of a product on no list by its name. */
  readonly products?: Readonly<Record<string, number>>;
  /** What each product is; one that is ground but on no list is `unlisted`. */
  readonly kinds?: Readonly<Record<string, ProductKind | 'unlisted'>>;
  /** Code of the line that a product is charged as where no line covers it, by product. */
  readonly chargeAs?: Readonly<Record<string, string>>;
  /** Grams of fat added, by fat source code. */
  readonly fats?: Readonly<Record<string, number>>;
  readonly packages?: number;
  /** Minutes of work by the code of their line, which charges by the hour. */
  readonly minutes?: Readonly<Record<string, number>>;
  /** How many of each extra, by code. */
  readonly extras?: Readonly<Record<string, number>>;
}

/** Whether every filter of the line matches. Two lines that both match are both charged. */
export function applies(line: PriceLine, amounts: Pick<Amounts, 'species' | 'brought'>): boolean {
  return (
    (!line.species || line.species.includes(amounts.species)) &&
    (!line.brought || line.brought.includes(amounts.brought))
  );
}

/**
 * The quantity that a line is charged on, in its own unit; null for lines that depend on other lines, and for hours, which are
 * charged by the minute.
 * @param covered grams of what is made that fall to a `product` or `ground` line
 */
export function quantityOf(
  line: PriceLine,
  amounts: Amounts,
  covered: (line: PriceLine) => number,
): Decimal | null {
  const count = (value: number): Decimal => decimalOf(value, 'amounts');
  const weight = (grams: number): Decimal => quantityIn(grams, line.unit ?? 'lb');
  switch (line.basis) {
    case 'animal':
      return count(amounts.animals ?? 1);
    case 'hanging':
      return weight(amounts.hangingGrams);
    case 'ground':
    case 'product':
      return weight(covered(line));
    case 'fat':
      return weight(amounts.fats?.[line.fatSource ?? ''] ?? 0);
    case 'package':
      return count(amounts.packages ?? 0);
    case 'extra':
      return count(amounts.extras?.[line.extra ?? ''] ?? 0);
    case 'hour':
    case 'percent':
    case 'minimum':
    case 'deposit':
    case 'free':
    case 'discount':
      return null;
  }
}
