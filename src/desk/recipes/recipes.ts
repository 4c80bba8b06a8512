/** Recipes of the smokehouse. A change is a new version; batches keep the one that they were started with. */
import * as v from 'valibot';
import type { RecipeRow } from '../../book/records/smokehouse/recipes.ts';
import { by, id, needed, text } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import type { RecipeBody, RecipeCheck, RecipeLine, RecipePage, RecipesView } from '../contract/contract.ts';
import { refuseMoreOfShop } from '../session/list-limits.ts';
import { read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { COOLING_OPTIONS, LOSS_KINDS } from '../supplied/smokehouse.ts';
import { sourceNote } from '../supplied/sources.ts';
import { requireBody } from './curing-recipe.ts';
import { ingredientCards, pantryOf, type Pantry } from './library.ts';
import { readyRecipes } from './ready.ts';
import { checkRecipe } from './recipe-check.ts';
import { recipeBody } from './recipe-input.ts';

/** A kind of loss that is no product's. */
const PACKING = 'packing';

/** Recipes, ready ones to start from, and ingredients; those put away too. */
export const list = read(v.object({}), (session): RecipesView => {
  const ingredients = ingredientCards(session);
  const pantry = pantryOf(ingredients);
  const rows = session.book.recipes.all();
  return {
    recipes: rows.map((row) => lineOf(session, row, pantry)),
    ready: readyRecipes(rows.map(({ name }) => name)),
    ingredients,
    lossKinds: LOSS_KINDS.filter(({ code }) => code !== PACKING).map((kind) => ({
      code: kind.code,
      name: kind.name,
      low: kind.low,
      high: kind.high,
      source: sourceNote(kind),
    })),
    cooling: COOLING_OPTIONS.map((option) => ({
      code: option.code,
      name: option.name,
      confirmed: option.confirmed,
      source: sourceNote(option),
    })),
  };
});

/** @throws ProblemError `recipe.unknown` */
export const get = read(
  v.object({ id, versionId: v.optional(v.nullable(id), null) }),
  (session, input): RecipePage => {
    const newest = recipeRowOf(session, input.id);
    const row = input.versionId === null ? newest : session.book.recipes.version(input.versionId);
    if (row?.id !== newest.id) throw new ProblemError('missing', 'recipe.unknown', { field: 'versionId' });
    const body = bodyOf(row);
    const { name, product, reason, at, number } = row;
    return {
      id: row.id,
      versionId: row.version,
      number,
      name,
      product,
      body,
      reason,
      at,
      by: row.by,
      offered: row.active === 1,
      versions: session.book.recipes.versions(row.id).map((one) => ({
        versionId: one.version,
        number: one.number,
        reason: one.reason,
        at: one.at,
        by: one.by,
      })),
      check: checkRecipe(session, body, pantryOf(ingredientCards(session))),
    };
  },
);

/** A recipe that is being written, on 100 lb or 100 kg of meat. @throws those of `requireBody` and `checkRecipe` */
export const check = read(v.object({ body: recipeBody }), (session, { body }): RecipeCheck => {
  const pantry = pantryOf(ingredientCards(session));
  requireBody(body, pantry.library);
  return checkRecipe(session, body, pantry);
});

/**
 * Adds a recipe, or a new version of one. One that exceeds a limit is saved: it is the batch that cannot start.
 * @throws ProblemError `recipe.taken` (invalid), `recipe.unknown`, `recipe.reason` (invalid: a change says why), `recipe.too-many`
 *   (refused); those of `requireBody`
 */
export const save = write(
  v.object({
    id: v.optional(v.nullable(id), null),
    name: needed(60),
    product: needed(60),
    body: recipeBody,
    reason: text(300),
    by,
  }),
  (session, { id: changed, body, by: initials, ...named }): { id: number; versionId: number } => {
    requireBody(body, pantryOf(ingredientCards(session)).library);
    const rows = session.book.recipes.all();
    const same = rows.find(
      ({ id: other, name }) => name.toLowerCase() === named.name.toLowerCase() && other !== changed,
    );
    if (same) throw new ProblemError('invalid', 'recipe.taken', { field: 'name', with: { name: same.name } });
    const row = { ...named, body: JSON.stringify(body), at: session.now(), by: initials };
    if (changed === null) {
      refuseMoreOfShop('recipe', rows.length);
      const { id: added, version } = session.book.recipes.add(row);
      return { id: added, versionId: version };
    }
    recipeRowOf(session, changed);
    if (named.reason === '') throw new ProblemError('invalid', 'recipe.reason', { field: 'reason' });
    return { id: changed, versionId: session.book.recipes.change(changed, row) };
  },
);

const which = v.object({ id, by });

/** Batches made from it stay. @throws ProblemError `recipe.unknown` */
export const archive = write(which, (session, input) => offer(session, input, false));

/** @throws ProblemError `recipe.unknown` */
export const restore = write(which, (session, input) => offer(session, input, true));

function offer(
  session: Session,
  { id: of, by: initials }: v.InferOutput<typeof which>,
  offered: boolean,
): { id: number } {
  const { name } = recipeRowOf(session, of);
  session.book.recipes.setActive(of, offered);
  session.book.audit.note({
    record: 'recipe', recordId: name, act: 'change', after: { offered }, at: session.now(), by: initials,
  }); // prettier-ignore
  return { id: of };
}

/** The newest version. @throws ProblemError `recipe.unknown` */
export function recipeRowOf(session: Session, of: number): RecipeRow {
  const found = session.book.recipes.get(of);
  if (!found) throw new ProblemError('missing', 'recipe.unknown', { field: 'recipeId' });
  return found;
}

export const bodyOf = ({ body }: Pick<RecipeRow, 'body'>): RecipeBody => JSON.parse(body) as RecipeBody;

function lineOf(session: Session, row: RecipeRow, pantry: Pantry): RecipeLine {
  const body = bodyOf(row);
  return {
    id: row.id,
    versionId: row.version,
    name: row.name,
    product: row.product,
    finish: body.finish,
    readyToEat: body.readyToEat,
    offered: row.active === 1,
    stops: checkRecipe(session, body, pantry).findings.filter(({ weight }) => weight === 'stop').length,
    at: row.at,
    by: row.by,
  };
}
