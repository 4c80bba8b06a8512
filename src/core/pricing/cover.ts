/** Which lines charge for which product, and the products that none does. */
import type { ProductKind } from '../../trade/product.ts';
import type { Amounts, PriceLine } from './lines.ts';

/** How the products of one job fall to the lines that apply to it. */
export interface Cover {
  /** Grams that a `product` or `ground` line is charged on. */
  gramsOf(line: PriceLine): number;
  /** Codes of products that no line charges for, though somebody made them. */
  uncovered: readonly string[];
}

/** Kinds that are work of their own: made of trim after the cutting. */
const MADE: readonly (ProductKind | 'unlisted')[] = ['grind', 'sausage', 'jerky', 'unlisted'];
/** Plain grinding is charged by its line; where a shop has none, its price for cutting includes it. */
const INCLUDES_GRIND = ['ground', 'animal', 'hanging'];

/** The `product` lines that name this product, else those that name its kind. Codes are compared without case. */
export function linesFor(
  lines: readonly PriceLine[],
  product: string,
  kind: ProductKind | 'unlisted' | undefined,
): PriceLine[] {
  const own = lines.filter(({ basis }) => basis === 'product');
  const called = product.toLowerCase();
  const named = own.filter(({ products }) => products?.some((code) => code.toLowerCase() === called));
  if (named.length > 0) return named;
  return own.filter(({ kinds }) => kinds?.some((one) => one === kind));
}

/**
 * Whether a product costs nothing by these lines though it is work of its own: sausage or jerky that no `product` line names
 * by code or kind, something ground that is on no list, and plain grind where nothing is charged for grinding or cutting.
 */
export function lacksPrice(
  lines: readonly PriceLine[],
  product: string,
  kind: ProductKind | 'unlisted' | undefined,
): boolean {
  if (!kind || !MADE.includes(kind) || linesFor(lines, product, kind).length > 0) return false;
  return kind !== 'grind' || !lines.some(({ basis }) => INCLUDES_GRIND.includes(basis));
}

/**
 * Shares the products out to the lines. A product that a line names is charged by that line and not by one for its kind;
 * where several name it, all charge. A grind without a line of its own is charged as grinding. What no line covers is charged
 * as the line that was chosen for it, or not at all.
 * @param lines those that apply to the animal
 */
export function coverOf(lines: readonly PriceLine[], amounts: Amounts): Cover {
  const grams = new Map<PriceLine, number>();
  const add = (line: PriceLine, more: number): void => void grams.set(line, (grams.get(line) ?? 0) + more);
  const uncovered: string[] = [];
  const grinding = lines.filter(({ basis }) => basis === 'ground');
  for (const line of grinding) add(line, amounts.groundGrams);
  for (const [product, made] of Object.entries(amounts.products ?? {})) {
    const kind = amounts.kinds?.[product];
    const own = linesFor(lines, product, kind);
    const chosen = lines.find(
      ({ code, basis }) => code === amounts.chargeAs?.[product] && isByProduct(basis),
    );
    if (own.length > 0) for (const line of own) add(line, made);
    else if (!lacksPrice(lines, product, kind)) {
      if (kind === 'grind') for (const line of grinding) add(line, made);
    } else if (chosen) add(chosen, made);
    else if (made > 0) uncovered.push(product);
  }
  return { gramsOf: (line) => grams.get(line) ?? 0, uncovered };
}

/** Whether a product may be charged as a line of this basis. */
export function isByProduct(basis: string): boolean {
  return basis === 'product' || basis === 'ground';
}
