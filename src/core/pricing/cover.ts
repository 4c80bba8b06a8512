/** Which lines charge which product, and which products no line charges. */
import type { ProductKind } from '../../trade/product.ts';
import type { Amounts, PriceLine } from './lines.ts';

/** Allocation of a job's products to the lines that apply. */
export interface Cover {
  /** Grams charged by a `product` or `ground` line. */
  gramsOf(line: PriceLine): number;
  /** Codes of products that were made but no line charges. */
  uncovered: readonly string[];
}

/** Kinds that are separate work: made of trim after cutting. */
const MADE: readonly (ProductKind | 'unlisted')[] = ['grind', 'sausage', 'jerky', 'unlisted'];
/** Grinding has its own line; in a shop without one, the price for cutting includes it. */
const INCLUDES_GRIND = ['ground', 'animal', 'hanging'];

/** The `product` lines that name this product, else those for its kind. Codes are compared ignoring case. */
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
 * Whether no line charges a product that is separate work: sausage or jerky that no `product` line covers by code or
 * kind, an unlisted ground product, or plain grind if neither grinding nor cutting is charged.
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
 * Allocates products to lines. A line that names a product takes precedence over lines for its kind; if several name
 * it, all charge it. A grind without a line of its own is charged as grinding. Anything else is charged by the line
 * chosen for it, or not at all.
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

/** Whether a line of this basis can charge a product. */
export function isByProduct(basis: string): boolean {
  return basis === 'product' || basis === 'ground';
}
