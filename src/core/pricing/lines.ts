/** The lines of a price book, the amounts that they charge, and the quantity of each line. */
import type { ProductKind } from '../../trade/product.ts';
import { decimalNumber, decimalOf, quantityIn, type Decimal } from '../values/money-sums.ts';

/** What a line charges by. */
export type Basis =
  | 'animal'
  | 'hanging'
  | 'ground'
  | 'product'
  | 'trim'
  | 'fat'
  | 'package'
  | 'hour'
  | 'extra'
  | 'percent'
  | 'minimum'
  | 'deposit'
  /** Only on one bill or quote: a free line, and an amount off. */
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
  /** The line applies only to these; default: all. A line applies if all its filters match. */
  readonly species?: readonly string[];
  readonly brought?: readonly string[];
  /** Products by code, kinds of product, and recipes, of a `product` or `trim` line; it needs at least one. */
  readonly products?: readonly string[];
  readonly kinds?: readonly ProductKind[];
  readonly recipes?: readonly string[];
  /** For the weight bases: where it charges at all, it charges for at least so many units. */
  readonly least?: number;
  /** The label where that minimum counts. */
  readonly leastLabel?: string;
  /** The fat or extra of the line; required for those bases. */
  readonly fatSource?: string;
  readonly extra?: string;
  /** Sales tax of this line as a fraction, e.g. 0.06; default 0. Not used for `percent` and `deposit`. */
  readonly taxRate?: number;
}

/** A part of a product: its finished weight, its recipe, and the animal's own trim that went into it. */
export interface MadeOf {
  /** Null for one that was made by none. */
  readonly recipe: string | null;
  readonly grams: number;
  /** Without the animal's own fat; null where it was not weighed, as for what is packed at the table. */
  readonly trimGrams: number | null;
}

/** What is charged: predicted amounts for a quote, weighed ones for a bill. Weights in grams. */
export interface Amounts {
  readonly species: string;
  readonly brought: string;
  /** Number of whole animals of that species and `brought`; default 1. */
  readonly animals?: number;
  readonly hangingGrams: number;
  /** Ground meat without a product. */
  readonly groundGrams: number;
  /** Finished grams by product code, e.g. { 'summer-sausage': 4500 }; unlisted products by name. */
  readonly products?: Readonly<Record<string, number>>;
  /** Kind of each product; `unlisted` if it is ground but not on the list. */
  readonly kinds?: Readonly<Record<string, ProductKind | 'unlisted'>>;
  /** How each product was made; bills from before do not tell. */
  readonly made?: Readonly<Record<string, readonly MadeOf[]>>;
  /** Line code for each product that no other line covers. */
  readonly chargeAs?: Readonly<Record<string, string>>;
  /** Grams of fat added, by fat source code. */
  readonly fats?: Readonly<Record<string, number>>;
  readonly packages?: number;
  /** Minutes of work by code of an hourly line. */
  readonly minutes?: Readonly<Record<string, number>>;
  /** Count of each extra, by code. */
  readonly extras?: Readonly<Record<string, number>>;
}

/** Whether all filters of the line match. If two lines match, both charge. */
export function applies(line: PriceLine, amounts: Pick<Amounts, 'species' | 'brought'>): boolean {
  return (
    (!line.species || line.species.includes(amounts.species)) &&
    (!line.brought || line.brought.includes(amounts.brought))
  );
}

/**
 * The quantity that a line charges for instead of what there is, or null: a line with a minimum charges for no less,
 * but only where there is something.
 * @example leastOf({ least: 25, … }, decimalOf(18.4, 'quantity')) // 25 as a decimal
 */
export function leastOf({ least }: PriceLine, quantity: Decimal): Decimal | null {
  return least !== undefined && quantity.digits > 0n && decimalNumber(quantity) < least
    ? decimalOf(least, 'least')
    : null;
}

/**
 * The quantity of a line in its own unit; null for lines that depend on other lines, and for hours, which are charged
 * by the minute.
 * @param covered grams allocated to a `product` or `ground` line
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
    case 'trim':
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
