import type { ProductKind } from '../../bridge/contract.ts';

/**
 * Names of products that a shop cooks, smokes or dries, in the languages of windows. Common practice, no source. Products that are
 * also sold raw or partly cooked (bacon, ham, kielbasa) are omitted, so that they keep the advice for raw meat.
 */
const ENGLISH =
  'jerky|biltong|pemmican|sticks?|summer sausage|bologna|baloney|salami|pepperoni|landj(ä|ae)ger|hot dogs?|franks?|frankfurters?|wieners?|cooked|dried';
const SPANISH = 'palitos de carne|salchichón|boloña|carne seca|cocid[oa]s?|sec[oa]s?';
const FRENCH = 'pepperettes?|bâtonnets?|saucisson d’été|bologne|cuite?s?|séchée?s?';
const NAMES = new RegExp(`(?<!\\p{L})(${ENGLISH}|${SPANISH}|${FRENCH})(?!\\p{L})`, 'iu');

/**
 * Whether a product leaves the shop cooked or dried, so that the advice for raw meat would be wrong.
 * @example cookedHere('Snack sticks', 'sausage') // true
 */
export function cookedHere(product: string, kind: ProductKind | undefined): boolean {
  return kind === 'jerky' || NAMES.test(product);
}
