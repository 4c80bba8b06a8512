/** What the shop's own batches say of losses, and how much trim a wanted product takes. */
import * as v from 'valibot';
import { finishedFrom, trimNeeded } from '../../core/loss/trim-needed.ts';
import { id, someGrams } from '../input/input.ts';
import type { LossView, MadeForecast } from '../contract/contract.ts';
import { read } from '../session/procedure.ts';
import { unusualOf } from './made-page.ts';
import { bodyOf, recipeRowOf } from '../recipes/recipes.ts';
import { forecastOf, madeFrom } from '../recipes/output.ts';

/** The newest of each recipe, for a chart. */
const MAX_SHOWN = 200;
const grams = v.optional(v.nullable(someGrams), null);

/** How much trim a finished weight takes, and what trim comes to, by the newest recipe. @throws ProblemError `recipe.unknown` */
export const forecast = read(
  v.object({ recipeId: id, finishedGrams: grams, trimGrams: grams }),
  (session, { recipeId, finishedGrams, trimGrams }): MadeForecast => {
    const body = bodyOf(recipeRowOf(session, recipeId));
    const made = madeFrom(session, recipeId, body);
    return {
      forecast: forecastOf(session, recipeId, body.lossKind),
      addedShare: made.addedShare,
      trimShare: made.trimShare,
      trim: finishedGrams === null ? null : trimNeeded(finishedGrams, made),
      finished: trimGrams === null || made.trimShare === 0 ? null : finishedFrom(trimGrams, made),
    };
  },
);

/** Losses of every finished batch by recipe, oldest first, with the forecast of the next. */
export const losses = read(
  v.object({ recipeId: v.optional(v.nullable(id), null) }),
  (session, input): LossView => {
    const { batches } = session.losses;
    const recipes = session.book.recipes
      .all()
      .filter((row) => (input.recipeId === null ? row.active === 1 : row.id === input.recipeId));
    return {
      recipes: recipes.map((row) => ({
        recipeId: row.id,
        recipe: row.name,
        forecast: forecastOf(session, row.id, bodyOf(row).lossKind),
        batches: batches
          .filter(({ recipe_id: of }) => of === row.id)
          .slice(-MAX_SHOWN)
          .map((one) => ({
            id: one.id,
            name: one.name,
            season: one.season,
            at: one.started_at ?? '',
            stuffedGrams: one.in_grams,
            cookedGrams: one.cooked,
            packedGrams: one.packed,
            loss: 1 - one.packed / one.in_grams,
            unusual: unusualOf(session, one.id),
          })),
      })),
    };
  },
);
