import type { OrderRecipe } from '../../bridge/contract.ts';
import { listText } from '../../words/list.ts';
import { text } from '../../words/compiled/window/orders.ts';
import type { Format } from '../texts/format.ts';

const keyOf = (product: string): string => product.trim().toLowerCase();

/** The shop's recipes of a product. */
export function recipesOf(recipes: readonly OrderRecipe[], product: string): OrderRecipe[] {
  return recipes.filter((one) => keyOf(one.product) === keyOf(product));
}

/** What a grind is made by, as the desk finds it: the recipe that it names, else the first of its product. */
export function recipeOfLine(
  recipes: readonly OrderRecipe[],
  line: { product: string; recipeId?: number | null | undefined },
): OrderRecipe | undefined {
  return recipes.find(({ id }) => id === line.recipeId) ?? recipesOf(recipes, line.product)[0];
}

/** @example recipeMeat({ meat: [{ name: 'Game', share: 0.7 }, { name: 'Pork', share: 0.3 }], … }, format) // '70% Game, 30% Pork' */
export function recipeMeat({ meat }: Pick<OrderRecipe, 'meat'>, format: Format): string {
  return listText(meat.map(({ name, share }) => text.recipePart({ name, share: format.share(share, 0) })));
}
