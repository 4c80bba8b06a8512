import { linesFor } from '../../../core/pricing/cover.ts';
import type { Instructions } from '../../contract/contract.ts';
import { pricesInForce } from '../../pricing/prices.ts';
import { kindOf, productLookup } from '../../pricing/product-lookup.ts';
import { grindLines, recipesOfOrders } from '../../recipes/ordered.ts';
import type { Session } from '../../session/session.ts';

/**
 * Tells of orders which lines of the price list charge what is made by them, by code; none while the shop has only the example's
 * prices.
 */
export function chargesOfOrders(session: Session): (orders: Instructions) => string[] {
  const prices = pricesInForce(session);
  if (!prices || prices.example) return () => [];
  const lookup = productLookup(session);
  const recipeOf = recipesOfOrders(session);
  return (orders) => {
    const lines = grindLines(orders).flatMap((line) => {
      const recipe = recipeOf(line);
      return linesFor(prices.lines, {
        product: lookup(line.product)?.code ?? line.product,
        kind: kindOf(line.product, lookup),
        recipe: recipe && String(recipe.recipeId),
      });
    });
    return [...new Set(lines.map(({ code }) => code))];
  };
}
