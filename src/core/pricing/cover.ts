/** Which lines charge which product, and which products no line charges. */
import type { ProductKind } from '../../trade/product.ts';
import { isByProduct } from './by-product.ts';
import type { Amounts, MadeOf, PriceLine } from './lines.ts';

/** Allocation of a job's products to the lines that apply. */
export interface Cover {
  /** Grams charged by a `product`, `trim` or `ground` line. */
  gramsOf(line: PriceLine): number;
  /** Codes of products that were made but no line charges. */
  uncovered: readonly string[];
}

/** Kinds that are separate work: made of trim after cutting. */
const MADE: readonly (ProductKind | 'unlisted')[] = ['grind', 'sausage', 'jerky', 'unlisted'];
/** Grinding has its own line; in a shop without one, the price for cutting includes it. */
const INCLUDES_GRIND = ['ground', 'animal', 'hanging'];

/** A product as lines find it. */
interface Sought {
  readonly product: string;
  readonly kind: ProductKind | 'unlisted' | undefined;
  /** The recipe that it was made by, if any. */
  readonly recipe?: string | null;
}

/** The lines for its recipe, else those that name the product, else those for its kind. Codes are compared ignoring case. */
export function linesFor(lines: readonly PriceLine[], { product, kind, recipe = null }: Sought): PriceLine[] {
  const own = lines.filter(({ basis }) => isByProduct(basis));
  const byRecipe = own.filter(({ recipes }) => recipe !== null && recipes?.includes(recipe));
  if (byRecipe.length > 0) return byRecipe;
  const called = product.toLowerCase();
  const named = own.filter(({ products }) => products?.some((code) => code.toLowerCase() === called));
  if (named.length > 0) return named;
  return own.filter(({ kinds }) => kinds?.some((one) => one === kind));
}

/**
 * Whether no line charges a product that is separate work: sausage or jerky that no line covers by recipe, code or
 * kind, an unlisted ground product, or plain grind if neither grinding nor cutting is charged.
 */
export function lacksPrice(lines: readonly PriceLine[], sought: Sought): boolean {
  const { kind } = sought;
  if (!kind || !MADE.includes(kind) || linesFor(lines, sought).length > 0) return false;
  return kind !== 'grind' || !lines.some(({ basis }) => INCLUDES_GRIND.includes(basis));
}

/** How a product was made; as a whole and of unknown trim where the amounts do not tell. */
export function madeOf(
  { products, made }: Pick<Amounts, 'products' | 'made'>,
  product: string,
): readonly MadeOf[] {
  const own = made && Object.hasOwn(made, product) ? made[product] : undefined;
  return own ?? [{ recipe: null, grams: products?.[product] ?? 0, trimGrams: null }];
}

/**
 * Allocates products to lines. A line for the recipe takes precedence over lines that name the product, and those over
 * lines for its kind; if several name it, all charge it. A grind without a line of its own is charged as grinding.
 * Anything else is charged by the line chosen for it, or not at all. A line by trim cannot charge what was made of
 * trim that nobody weighed.
 * @param lines those that apply to the animal
 */
export function coverOf(lines: readonly PriceLine[], amounts: Amounts): Cover {
  const grams = new Map<PriceLine, number>();
  const add = (line: PriceLine, more: number): void => void grams.set(line, (grams.get(line) ?? 0) + more);
  const uncovered = new Set<string>();
  const grinding = lines.filter(({ basis }) => basis === 'ground');
  for (const line of grinding) add(line, amounts.groundGrams);
  for (const product of Object.keys(amounts.products ?? {})) {
    const kind = amounts.kinds?.[product];
    const chosen = lines.filter(
      ({ code, basis }) => code === amounts.chargeAs?.[product] && mayCharge(basis),
    );
    for (const part of madeOf(amounts, product)) {
      const sought = { product, kind, recipe: part.recipe };
      const own = linesFor(lines, sought);
      const weighed = (line: PriceLine): boolean => line.basis !== 'trim' || part.trimGrams !== null;
      const free = own.length === 0 && !lacksPrice(lines, sought);
      const by = own.some(weighed) ? own : free ? (kind === 'grind' ? grinding : []) : chosen.slice(0, 1);
      const charging = by.filter(weighed);
      for (const line of charging) add(line, line.basis === 'trim' ? (part.trimGrams ?? 0) : part.grams);
      if (charging.length === 0 && !free && part.grams > 0) uncovered.add(product);
    }
  }
  return { gramsOf: (line) => grams.get(line) ?? 0, uncovered: [...uncovered] };
}

/** Whether a line of this basis can be chosen to charge a product. */
export function mayCharge(basis: string): boolean {
  return isByProduct(basis) || basis === 'ground';
}
