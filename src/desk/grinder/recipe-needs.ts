/** Meat that the smokehouse still has to buy for batches that were opened by a recipe. */
import { recipeNeed, type NeedEstimate } from '../../core/fat/needs.ts';
import { outputOf } from '../recipes/output.ts';
import type { Session } from '../session/session.ts';

/** One grind that a recipe was opened on. */
export interface RecipeWanted {
  animals: readonly { id: number; species: string }[];
  /** By fat code. */
  needs: ReadonlyMap<string, NeedEstimate>;
}

/** Of grinds with trim in them whose batch is not started: what the recipe asks for beside the trim, less what is weighed in. */
export function openRecipeNeeds(session: Session): RecipeWanted[] {
  const { book } = session;
  return book.batches.open().flatMap(({ id: batchId }) => {
    const opened = book.made.ofBatch(batchId).filter(({ id }) => !book.made.start(id));
    const row = opened[0] && book.recipes.get(opened[0].recipe_id);
    const recipe = row && outputOf(session, row);
    if (!recipe || recipe.trimShare === 0) return [];
    const weighed = book.weighings
      .ofBatch(batchId)
      .filter(({ stage, void_at }) => stage === 'grinder' && void_at === null);
    const trim = sum(weighed.filter(({ part }) => part === 'trim'));
    const needs = new Map<string, NeedEstimate>();
    for (const [source, share] of sharesOf(recipe.bought)) {
      const there = sum(
        weighed.filter(({ fat_lot_id: lot }) => lot !== null && book.fat.get(lot)?.source === source),
      );
      const grams = Math.max(0, (trim * share) / recipe.trimShare - there);
      if (grams > 0) needs.set(source, recipeNeed({ mean: grams, sd: 0 }, 1));
    }
    return needs.size > 0 ? [{ animals: book.batches.animals(batchId), needs }] : [];
  });
}

/** Shares by fat of the shop's list; one that is named twice counts once, with both. */
function sharesOf(bought: readonly { source: string | null; share: number }[]): Map<string, number> {
  const shares = new Map<string, number>();
  for (const { source, share } of bought)
    if (source !== null) shares.set(source, (shares.get(source) ?? 0) + share);
  return shares;
}

function sum(rows: readonly { grams: number }[]): number {
  return rows.reduce((total, { grams }) => total + grams, 0);
}
