import type { ProductKind } from '../../bridge/contract.ts';

/**
 * Names of products that a shop cooks, smokes or dries. Common practice, no source. Products that are also sold raw
 * or partly cooked (bacon, ham, kielbasa) are omitted, so that they keep the advice for raw meat.
 */
const NAMES =
  /\b(jerky|biltong|pemmican|sticks?|summer sausage|bologna|baloney|salami|pepperoni|landj(ä|ae)ger|hot dogs?|franks?|frankfurters?|wieners?|cooked|dried)\b/i;

/**
 * Whether a product leaves the shop cooked or dried, so that the advice for raw meat would be wrong.
 * @example cookedHere('Snack sticks', 'sausage') // true
 */
export function cookedHere(product: string, kind: ProductKind | undefined): boolean {
  return kind === 'jerky' || NAMES.test(product);
}
