/** Ingredients of the book in the shapes that the core reckons with. */
import type { Book } from '../../book/book.ts';
import type { IngredientRow } from '../../book/records/smokehouse/recipes.ts';
import type { Library } from '../../core/curing/ingredients.ts';
import type { CureMix } from '../../core/curing/mix.ts';
import type { CureClass, IngredientCard, RecipeBody, StatedAllergens } from '../contract/contract.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** Ingredients as they were on a day: what a label and the ppm of a batch rest on. */
export interface Pantry {
  readonly library: Library;
  /** Of cures and accelerators, by the id of the ingredient. */
  readonly mixes: ReadonlyMap<string, CureMix>;
}

export function cardOf(row: IngredientRow): IngredientCard {
  const cure = row.kind === 'cure' || row.kind === 'accelerator';
  return {
    id: row.id,
    name: row.name,
    kind: row.kind,
    parts: row.parts === null ? null : (JSON.parse(row.parts) as number[]),
    allergens: JSON.parse(row.allergens) as StatedAllergens,
    cure: cure
      ? {
          nitrite: row.nitrite,
          nitrate: row.nitrate,
          accelerator: row.accelerator,
          salt: row.salt,
          nitriteAs: row.nitrite_as,
          typed: row.strength_typed,
          uses: row.uses === null ? null : (JSON.parse(row.uses) as CureClass[]),
        }
      : null,
    note: row.note,
    offered: row.active === 1,
    at: row.at,
    by: row.by,
  };
}

export function pantryOf(cards: readonly IngredientCard[]): Pantry {
  return {
    library: Object.fromEntries(
      cards.map(({ id, name, parts, allergens }) => [
        String(id),
        { name, parts: parts?.map(String) ?? null, allergens },
      ]),
    ),
    mixes: new Map(
      cards.flatMap(({ id, cure }): [string, CureMix][] => {
        if (!cure) return [];
        const { nitrite, nitrate, accelerator, nitriteAs, salt, uses } = cure;
        const mix = { id: String(id), nitrite, nitrate, accelerator, nitriteAs, for: uses };
        return [[String(id), salt === null ? mix : { ...mix, salt }]];
      }),
    ),
  };
}

/** Of each book, until a recipe or an ingredient changes. */
const cards = new WeakMap<Book, { version: number; all: ReadonlyMap<number, IngredientCard> }>();

/** The newest version of every ingredient, by its id. */
function shelfOf({ book }: Session): ReadonlyMap<number, IngredientCard> {
  const version = book.changes.version('recipe');
  const known = cards.get(book);
  if (known?.version === version) return known.all;
  const all = new Map(book.recipes.ingredients().map((row) => [row.id, cardOf(row)]));
  cards.set(book, { version, all });
  return all;
}

/** The newest version of every ingredient. */
export function ingredientCards(session: Session): IngredientCard[] {
  return [...shelfOf(session).values()];
}

/** @throws ProblemError `ingredient.unknown` */
export function ingredientRowOf(session: Session, id: number): IngredientRow {
  const found = session.book.recipes.ingredient(id);
  if (!found) throw new ProblemError('missing', 'ingredient.unknown', { field: 'id' });
  return found;
}

/** The ingredients of a recipe as they are now, with all that they are made of. */
export function cardsFor(session: Session, { additions }: Pick<RecipeBody, 'additions'>): IngredientCard[] {
  const all = shelfOf(session);
  const found = new Map<number, IngredientCard>();
  const add = (id: number): void => {
    const card = all.get(id);
    if (!card || found.has(id)) return;
    found.set(id, card);
    card.parts?.forEach(add);
  };
  additions.forEach(({ ingredientId }) => add(ingredientId));
  return [...found.values()];
}
