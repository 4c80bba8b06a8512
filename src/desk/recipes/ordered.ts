/** Which recipe a grind of a cut sheet is made by. */
import type { RecipeRow } from '../../book/records/smokehouse/recipes.ts';
import type { Instructions, OrderRecipe } from '../contract/contract.ts';
import { productLookup } from '../pricing/product-lookup.ts';
import type { Session } from '../session/session.ts';
import { outputOf, type RecipeOutput } from './output.ts';
import { bodyOf } from './recipes.ts';

/** A grind of a cut sheet. */
export type GrindLine = Pick<Instructions['alsoGround'][number], 'product' | 'recipeId'>;

/** What a grind is made by; null: ground, and nothing more. */
export type RecipeOfLine = (line: GrindLine) => RecipeOutput | null;

/**
 * The recipe that a grind names; else the shop's recipe of its product, of several the first by name. Recipes without game are
 * no grind of a hunter's animal. A recipe that was put away counts only where it is named.
 */
export function recipesOfOrders(session: Session): RecipeOfLine {
  const rows = withGame(session);
  if (rows.length === 0) return () => null;
  const lookup = productLookup(session);
  const codeOf = (product: string): string => lookup(product)?.code ?? product.trim().toLowerCase();
  const outputs = new Map<number, RecipeOutput>();
  return ({ product, recipeId }) => {
    const row =
      rows.find(({ id }) => id === recipeId) ??
      rows.find((one) => one.active === 1 && codeOf(one.product) === codeOf(product));
    if (!row) return null;
    const output = outputs.get(row.id) ?? outputOf(session, row);
    outputs.set(row.id, output);
    return output;
  };
}

/** Recipes that a cut sheet may name, by name. */
export function orderRecipes(session: Session): OrderRecipe[] {
  return withGame(session)
    .filter(({ active }) => active === 1)
    .map((row) => {
      const { meat } = bodyOf(row);
      const whole = meat.reduce((total, { share }) => total + share, 0);
      return {
        id: row.id,
        name: row.name,
        product: row.product,
        meat: meat.map(({ name, share }) => ({ name, share: share / whole })),
      };
    });
}

function withGame({ book }: Session): RecipeRow[] {
  return book.recipes
    .all()
    .filter((row) => bodyOf(row).meat.some(({ kind, share }) => kind === 'game' && share > 0));
}

/** The grinds of a cut sheet in the order of the work: those with an amount of their own, then the rest. */
export function grindLines({ alsoGround, grindProduct, recipeId }: Instructions): GrindLine[] {
  return [...alsoGround, { product: grindProduct, recipeId }];
}
