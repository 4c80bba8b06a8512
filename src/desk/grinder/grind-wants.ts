/** What a hunter still wants made from waiting trim: grinds with an amount of their own first, then the rest. */
import type { GrindWant, Instructions } from '../contract/contract.ts';

/**
 * Subtracts what already went into batches of the same product, and never requests more trim than is left. Amounts up
 * to `crumb` grams are ignored.
 * @param into grams of this animal's trim in batches, by product
 */
export function grindWants(
  orders: Instructions,
  into: readonly { product: string; grams: number }[],
  trimLeft: number,
  crumb: number,
): GrindWant[] {
  const done = new Map(into.map(({ product, grams }) => [product, grams]));
  const wants: GrindWant[] = [];
  let left = trimLeft;
  for (const { product, grams, fat, targetFat, pattyGrams, recipeId } of orders.alsoGround) {
    const ground = Math.min(done.get(product) ?? 0, grams);
    done.set(product, (done.get(product) ?? 0) - ground);
    const wanted = Math.min(grams - ground, left);
    if (wanted <= crumb) continue;
    wants.push({ product, fat, targetFat, pattyGrams, recipeId, grams: wanted });
    left -= wanted;
  }
  if (left > crumb || wants.length === 0) {
    const { grindProduct: product, fat, targetFat, pattyGrams, recipeId } = orders;
    wants.push({ product, fat, targetFat, pattyGrams, recipeId, grams: left });
  }
  return wants;
}
