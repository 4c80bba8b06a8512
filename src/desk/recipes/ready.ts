/** Recipes that came with the program, to start from: common practice, without a source. */
import * as v from 'valibot';
import readyJson from '../../../resources/recipes.json' with { type: 'json' };
import type { Sourced } from '../../core/species/species.ts';
import { by, needed } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import type {
  IngredientInput,
  ReadyRecipe,
  RecipeAddition,
  RecipeBody,
  StatedAllergens,
} from '../contract/contract.ts';
import { refuseMoreOfShop } from '../session/list-limits.ts';
import { write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { sourceNote } from '../supplied/sources.ts';
import { requireBody } from './curing-recipe.ts';
import { rowOf } from './ingredients.ts';
import { ingredientCards, pantryOf } from './library.ts';

interface ReadyIngredient extends Pick<IngredientInput, 'name' | 'kind'> {
  readonly code: string;
  /** Codes. */
  readonly parts: readonly string[] | null;
  readonly allergens: StatedAllergens;
}

interface Ready extends Sourced {
  readonly code: string;
  readonly name: string;
  readonly product: string;
  readonly note: string;
  readonly body: Omit<RecipeBody, 'additions'> & {
    /** Ounces per 100 lb of meat. */
    readonly additions: readonly (Pick<RecipeAddition, 'role' | 'into'> & {
      readonly ingredient: string;
      readonly oz: number;
    })[];
  };
}

const READY = readyJson as unknown as {
  readonly ingredients: readonly ReadyIngredient[];
  readonly recipes: readonly Ready[];
};

/** Grams per kilogram in an ounce per 100 lb. */
const OUNCE_PER_100_LB = 0.625;

/** @param taken names of the shop's recipes */
export function readyRecipes(taken: readonly string[]): ReadyRecipe[] {
  const names = new Set(taken.map((name) => name.toLowerCase()));
  return READY.recipes.map((ready) => ({
    code: ready.code,
    name: ready.name,
    product: ready.product,
    note: ready.note,
    source: sourceNote(ready),
    ingredients: ready.body.additions.map(({ ingredient }) => readyIngredient(ingredient).name),
    taken: names.has(ready.name.toLowerCase()),
  }));
}

/**
 * Copies a ready recipe into the book, with those of its ingredients that the shop does not have. No cure comes with a strength: it is
 * read off the packet.
 * @throws ProblemError `recipe.ready-unknown` (missing), `recipe.taken` (invalid), `recipe.too-many`, `ingredient.too-many` (refused)
 */
export const addReady = write(
  v.object({ code: needed(40), by }),
  (session, { code, by: initials }): { id: number; versionId: number } => {
    const ready = READY.recipes.find((one) => one.code === code);
    if (!ready) throw new ProblemError('missing', 'recipe.ready-unknown', { field: 'code' });
    const rows = session.book.recipes.all();
    if (rows.some(({ name }) => name.toLowerCase() === ready.name.toLowerCase()))
      throw new ProblemError('invalid', 'recipe.taken', { field: 'code', with: { name: ready.name } });
    refuseMoreOfShop('recipe', rows.length);
    const { additions, ...rest } = ready.body;
    const metric = session.settings.unit === 'kg';
    const body: RecipeBody = {
      ...rest,
      note: ready.note,
      additions: additions.map(({ ingredient, oz, role, into }) => ({
        ingredientId: ingredientFor(session, readyIngredient(ingredient), initials),
        role,
        into,
        typed: String(metric ? oz * OUNCE_PER_100_LB : oz),
        unit: metric ? 'g' : 'oz',
        per: metric ? 'kg' : '100 lb',
      })),
    };
    requireBody(body, pantryOf(ingredientCards(session)).library);
    const { id, version } = session.book.recipes.add({
      name: ready.name,
      product: ready.product,
      body: JSON.stringify(body),
      reason: '',
      at: session.now(),
      by: initials,
    });
    return { id, versionId: version };
  },
);

/** The shop's ingredient of that name, else a new one with its parts. */
function ingredientFor(session: Session, ready: ReadyIngredient, initials: string): number {
  const cards = ingredientCards(session);
  const known = cards.find(({ name }) => name.toLowerCase() === ready.name.toLowerCase());
  if (known) return known.id;
  const parts = ready.parts?.map((code) => ingredientFor(session, readyIngredient(code), initials)) ?? null;
  refuseMoreOfShop('ingredient', ingredientCards(session).length);
  const cure =
    ready.kind === 'cure'
      ? {
          nitrite: null,
          nitrate: null,
          accelerator: null,
          salt: null,
          nitriteAs: 'sodium' as const,
          typed: '',
          uses: null,
        }
      : null;
  const { name, kind, allergens } = ready;
  return session.book.recipes.addIngredient(
    rowOf(session, { name, kind, allergens, parts, cure, note: '' }, initials),
  );
}

function readyIngredient(code: string): ReadyIngredient {
  const found = READY.ingredients.find((one) => one.code === code);
  if (!found) throw new ProblemError('broken', 'resources.recipes');
  return found;
}
