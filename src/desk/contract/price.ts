/** Price books, as a window sees them. Money in minor units, rates as fractions. */
import type { Brought } from './words.ts';
import type { ProductKind } from '../../trade/product.ts';

export interface PriceLineRow {
  code: string;
  label: string;
  basis: string;
  amountMinor: number | null;
  rate: number | null;
  unit: 'lb' | 'kg' | null;
  species: string[] | null;
  brought: Brought[] | null;
  /** Codes of the products that it is for; a name that is on no list stays as it was typed. */
  products: string[];
  /** Kinds of product that it is for, as far as no line names the product itself. */
  kinds: ProductKind[];
  /** Recipes that it is for: before lines that name the product. */
  recipes: number[];
  /** By weight, where it charges at all: for at least so many units. */
  least: number | null;
  fatSource: string | null;
  taxRate: number;
}

export interface PriceBookView {
  id: number;
  name: string;
  validFrom: string;
  currency: string;
  /** Where tax is rounded: on each line, or once on the whole bill. */
  taxRule: 'per line' | 'per bill';
  example: boolean;
  lines: PriceLineRow[];
  gaps: PriceGaps;
}

/** Where a price book and the shop's list of products do not meet. */
export interface PriceGaps {
  /** Products on offer that no line charges for. */
  unpriced: { code: string; name: string }[];
  /** What lines name that is on no list, each with its line. */
  unknown: { line: string; product: string }[];
}

/** An extra, or a charge by the hour, that the prices in force have. */
export interface PricedLine {
  code: string;
  label: string;
  unitPriceMinor: number;
}

/**
 * What one bill or quote leaves the price book for. `charge as` names the line that a product without a price is charged as;
 * `other price` is that of one unit of its line.
 */
export type AdjustmentInput =
  | { kind: 'free line'; label: string; amountMinor: number; taxRate: number; reason: string }
  | { kind: 'amount off'; amountMinor: number; reason: string }
  | { kind: 'percent off'; rate: number; reason: string }
  | { kind: 'other price'; lineCode: string; amountMinor: number; reason: string }
  | { kind: 'charge as'; product: string; lineCode: string; reason: string };

/** A product, extra or time worked that no price line in force covers. */
export interface Unpriced {
  what: 'product' | 'extra' | 'hours';
  code: string;
  name: string;
}
