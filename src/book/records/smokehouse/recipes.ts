import type { Db } from '../../file/db.ts';

export interface IngredientRow {
  /** Of the ingredient. */
  id: number;
  version: number;
  active: 0 | 1;
  name: string;
  kind: 'plain' | 'blend' | 'cure' | 'accelerator';
  parts: string | null;
  allergens: string;
  nitrite: number | null;
  nitrate: number | null;
  accelerator: number | null;
  salt: number | null;
  strength_typed: string;
  nitrite_as: 'sodium' | 'potassium';
  uses: string | null;
  note: string;
  at: string;
  by: string;
}

export type NewIngredient = Omit<IngredientRow, 'id' | 'version' | 'active'>;

export interface RecipeRow {
  /** Of the recipe. */
  id: number;
  version: number;
  /** Running number of the version, from 1. */
  number: number;
  active: 0 | 1;
  name: string;
  product: string;
  body: string;
  reason: string;
  at: string;
  by: string;
}

export type NewRecipe = Omit<RecipeRow, 'id' | 'version' | 'number' | 'active'>;

const INGREDIENT = `SELECT i.id, v.id AS version, i.active, v.name, v.kind, v.parts, v.allergens, v.nitrite, v.nitrate, v.accelerator,
  v.salt, v.strength_typed, v.nitrite_as, v.uses, v.note, v.at, v.by
  FROM ingredient i JOIN ingredient_version v ON v.ingredient_id = i.id`;
const NEWEST_INGREDIENT = 'v.id = (SELECT max(n.id) FROM ingredient_version n WHERE n.ingredient_id = i.id)';
const RECIPE = `SELECT r.id, v.id AS version, r.active, v.name, v.product, v.body, v.reason, v.at, v.by,
  (SELECT count(*) FROM recipe_version o WHERE o.recipe_id = r.id AND o.id <= v.id) AS number
  FROM recipe r JOIN recipe_version v ON v.recipe_id = r.id`;
const NEWEST_RECIPE = 'v.id = (SELECT max(n.id) FROM recipe_version n WHERE n.recipe_id = r.id)';

/** Ingredients and recipes in versions; what is changed is added, and nothing is changed. */
export function recipeRecords(db: Db) {
  const ingredients = db.prepare<[], IngredientRow>(
    `${INGREDIENT} WHERE ${NEWEST_INGREDIENT} ORDER BY v.name, i.id`,
  );
  const ingredient = db.prepare<[number], IngredientRow>(
    `${INGREDIENT} WHERE i.id = ? AND ${NEWEST_INGREDIENT}`,
  );
  const addIngredient = db.prepare('INSERT INTO ingredient (at, by) VALUES (@at, @by)');
  const addIngredientVersion = db.prepare(
    `INSERT INTO ingredient_version (ingredient_id, name, kind, parts, allergens, nitrite, nitrate, accelerator, salt, strength_typed,
       nitrite_as, uses, note, at, by)
     VALUES (@id, @name, @kind, @parts, @allergens, @nitrite, @nitrate, @accelerator, @salt, @strength_typed, @nitrite_as, @uses,
       @note, @at, @by)`,
  );
  const setIngredient = db.prepare<[0 | 1, number]>('UPDATE ingredient SET active = ? WHERE id = ?');
  const all = db.prepare<[], RecipeRow>(`${RECIPE} WHERE ${NEWEST_RECIPE} ORDER BY v.name, r.id`);
  const get = db.prepare<[number], RecipeRow>(`${RECIPE} WHERE r.id = ? AND ${NEWEST_RECIPE}`);
  const version = db.prepare<[number], RecipeRow>(`${RECIPE} WHERE v.id = ?`);
  const versions = db.prepare<[number], RecipeRow>(`${RECIPE} WHERE r.id = ? ORDER BY v.id DESC`);
  const add = db.prepare('INSERT INTO recipe (at, by) VALUES (@at, @by)');
  const addVersion = db.prepare(
    `INSERT INTO recipe_version (recipe_id, name, product, body, reason, at, by)
     VALUES (@id, @name, @product, @body, @reason, @at, @by)`,
  );
  const setRecipe = db.prepare<[0 | 1, number]>('UPDATE recipe SET active = ? WHERE id = ?');
  return {
    /** Every ingredient in its newest version, those put away too. */
    ingredients: () => ingredients.all(),
    ingredient: (id: number) => ingredient.get(id),
    addIngredient(row: NewIngredient): number {
      const id = Number(addIngredient.run({ at: row.at, by: row.by }).lastInsertRowid);
      addIngredientVersion.run({ ...row, id });
      return id;
    },
    changeIngredient: (id: number, row: NewIngredient): void => void addIngredientVersion.run({ ...row, id }),
    setIngredientActive: (id: number, active: boolean): void => void setIngredient.run(active ? 1 : 0, id),
    /** Every recipe in its newest version, those put away too. */
    all: () => all.all(),
    get: (id: number) => get.get(id),
    version: (versionId: number) => version.get(versionId),
    /** Newest first. */
    versions: (id: number) => versions.all(id),
    add(row: NewRecipe): { id: number; version: number } {
      const id = Number(add.run({ at: row.at, by: row.by }).lastInsertRowid);
      return { id, version: Number(addVersion.run({ ...row, id }).lastInsertRowid) };
    },
    change: (id: number, row: NewRecipe): number => Number(addVersion.run({ ...row, id }).lastInsertRowid),
    setActive: (id: number, active: boolean): void => void setRecipe.run(active ? 1 : 0, id),
  };
}
