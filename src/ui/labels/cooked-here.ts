import type { ProductKind } from '../../bridge/contract.ts';

/**
 * Names of what a shop cooks, smokes or dries before it leaves. Common practice, no source. Left out on purpose is
 * what is also sold raw or only half cooked (bacon, ham, kielbasa): it keeps the advice for raw meat.
 */
const NAMES =
  /\b(jerky|biltong|pemmican|sticks?|summer sausage|bologna|baloney|salami|pepperoni|landj(ä|ae)ger|hot dogs?|franks?|frankfurters?|wieners?|cooked|dried)\b/i;

/**
 * Whether a product leaves the shop cooked or dried, so that what is printed for raw meat would be wrong on it.
 * @example cookedHere('Snack sticks', 'sausage') // true
 */
export function cookedHere(product: string, kind: ProductKind | undefined): boolean {
  return kind === 'jerky' || NAMES.test(product);
}
