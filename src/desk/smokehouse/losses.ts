/** What the shop's own batches say of losses, and how much trim a wanted product takes. */
import * as v from 'valibot';
import { finishedFrom, trimNeeded, type Made } from '../../core/loss/trim-needed.ts';
import { GRAMS_PER } from '../../core/values/units.ts';
import { id, someGrams } from '../input/input.ts';
import type { LossView, MadeForecast, RecipeBody } from '../contract/contract.ts';
import { read } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { cardsFor } from './made-batch.ts';
import { recipeMeat } from './curing-recipe.ts';
import { pantryOf } from './library.ts';
import { unusualOf } from './made-page.ts';
import { reckon } from './reckon.ts';
import { bodyOf, recipeRowOf } from './recipes.ts';
import { forecastOf } from './sheet.ts';

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

/** Shares of a recipe and the yield of its next batch, as trim is reckoned from them. */
export function madeFrom(session: Session, recipeId: number, body: RecipeBody): Made {
  const blockGrams = 100 * GRAMS_PER.kg;
  const whole = body.meat.reduce((sum, { share }) => sum + share, 0);
  const meat = recipeMeat(body).map((part) => ({ ...part, grams: (blockGrams * part.share) / whole }));
  const { smallStep } = session.settings;
  const scales = { smallStep, largeStep: smallStep };
  const { takenGrams } = reckon(body, meat, pantryOf(cardsFor(session, body)), scales);
  const game = body.meat.filter(({ kind }) => kind === 'game').reduce((sum, { share }) => sum + share, 0);
  return {
    addedShare: takenGrams / blockGrams,
    trimShare: game / whole,
    yields: forecastOf(session, recipeId, body.lossKind),
  };
}

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
