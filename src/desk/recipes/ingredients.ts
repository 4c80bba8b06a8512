/** Ingredients of the shop: what their packets say. A change is a new version; batches keep the one that they were made with. */
import * as v from 'valibot';
import type { NewIngredient } from '../../book/records/smokehouse/recipes.ts';
import { requireIngredients } from '../../core/curing/ingredients.ts';
import { strengthFindings } from '../../core/curing/mix.ts';
import { ValidationError } from '../../core/values/validation-error.ts';
import { by, id } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import type { IngredientCard, IngredientInput } from '../contract/contract.ts';
import { refuseMoreOfShop } from '../session/list-limits.ts';
import { write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { cardOf, ingredientCards, ingredientRowOf, pantryOf } from './library.ts';
import { ingredientInput } from './recipe-input.ts';

/**
 * Adds an ingredient, or a new version of one.
 * @throws ProblemError `ingredient.taken`, `ingredient.cure-needed` (invalid), `ingredient.unknown`, `ingredient.too-many` (refused);
 *   ValidationError `cure.strength-percent`, `cure.strength-unlikely`, `ingredient.circle`, `ingredient.too-deep`
 */
export const saveIngredient = write(
  v.object({ id: v.optional(v.nullable(id), null), ingredient: ingredientInput, by }),
  (session, { id: changed, ingredient, by: initials }): IngredientCard => {
    const cards = ingredientCards(session);
    if (changed !== null) ingredientRowOf(session, changed);
    refuseOdd(ingredient, cards, changed);
    const row = rowOf(session, ingredient, initials);
    if (changed === null) {
      refuseMoreOfShop('ingredient', cards.length);
      const added = session.book.recipes.addIngredient(row);
      return cardOf(ingredientRowOf(session, added));
    }
    session.book.recipes.changeIngredient(changed, row);
    return cardOf(ingredientRowOf(session, changed));
  },
);

const which = v.object({ id, by });

/** Recipes that have it keep it. @throws ProblemError `ingredient.unknown` */
export const archiveIngredient = write(which, (session, input) => offer(session, input, false));

/** @throws ProblemError `ingredient.unknown` */
export const restoreIngredient = write(which, (session, input) => offer(session, input, true));

function offer(
  session: Session,
  { id: of, by: initials }: v.InferOutput<typeof which>,
  offered: boolean,
): { id: number } {
  const { name } = ingredientRowOf(session, of);
  session.book.recipes.setIngredientActive(of, offered);
  session.book.audit.note({
    record: 'ingredient', recordId: name, act: 'change', after: { offered }, at: session.now(), by: initials,
  }); // prettier-ignore
  return { id: of };
}

function refuseOdd(
  { name, kind, parts, cure, allergens }: IngredientInput,
  cards: readonly IngredientCard[],
  changed: number | null,
): void {
  const same = cards.find((one) => one.name.toLowerCase() === name.toLowerCase() && one.id !== changed);
  if (same) throw new ProblemError('invalid', 'ingredient.taken', { field: 'name', with: { name } });
  if ((cure === null) === (kind === 'cure' || kind === 'accelerator'))
    throw new ProblemError('invalid', 'ingredient.cure-needed', { field: 'cure', with: { name } });
  if (cure) {
    const mix = { id: name, ...cure, salt: cure.salt ?? 0 };
    const odd = strengthFindings(mix).find(({ code }) => code !== 'cure.strength-missing');
    if (odd) throw new ValidationError(odd.code, 'cure', { ...odd.with });
    const whole = (cure.nitrite ?? 0) + (cure.nitrate ?? 0) + (cure.accelerator ?? 0) + (cure.salt ?? 0);
    if (whole > 1.0005)
      throw new ProblemError('invalid', 'strength.whole', { field: 'cure', with: { name } });
  }
  // One that is new is in no other, so it cannot contain itself.
  const own = changed === null ? 'new' : String(changed);
  const { library } = pantryOf(cards);
  requireIngredients([own], { ...library, [own]: { name, parts: parts?.map(String) ?? null, allergens } });
}

/** The row of an ingredient as it was typed. */
export function rowOf(
  session: Session,
  { name, kind, parts, allergens, cure, note }: IngredientInput,
  initials: string,
): NewIngredient {
  return {
    name,
    kind,
    parts: parts === null ? null : JSON.stringify(parts),
    allergens: JSON.stringify(allergens),
    nitrite: cure?.nitrite ?? null,
    nitrate: cure?.nitrate ?? null,
    accelerator: cure?.accelerator ?? null,
    salt: cure?.salt ?? null,
    strength_typed: cure?.typed ?? '',
    nitrite_as: cure?.nitriteAs ?? 'sodium',
    uses: cure?.uses ? JSON.stringify(cure.uses) : null,
    note,
    at: session.now(),
    by: initials,
  };
}
