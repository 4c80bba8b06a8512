/** Recipes and ingredients of the smokehouse. */
import { PINK, PLAIN, SPICE } from '../../desk/recipes/recipe-of.ts';
import { act, because, type Act, type Step } from '../step.ts';
import type { Dice } from '../dice.ts';
import type { Driver } from '../driver.ts';
import { scaled } from '../smokehouse.ts';
import type { Cured, Ingredient, Recipe } from '../smokehouse-state.ts';
import { GRAMS, type Shop } from '../shop.ts';
import { same } from './money-look.ts';

export const CASING = { name: 'Fibrous', diameterMm: 63, filledMm: 430, holdsTyped: '' };
export const NO_RECIPE: Recipe = {
  id: 9999,
  name: '',
  product: '',
  away: false,
  versions: 0,
  cured: null,
  ready: false,
};
const NO_INGREDIENT: Ingredient = { id: 9999, name: '', away: false, isCure: false, strength: null };
const STRENGTH = 0.0625;

export const bodyOf = (cured: Cured | null) => {
  if (!cured) return PLAIN;
  const line = { unit: 'oz', per: '100 lb', into: 'meat' } as const;
  return {
    ...PLAIN, method: 'mixed-in', class: 'ground', finish: 'cooked', lossKind: 'cooked', keep: 'refrigerated', readyToEat: true, casing: CASING,
    heat: { level: 'log65', cooling: 'option-1', steps: [] },
    additions: [
      { ingredientId: cured.salt, role: 'salt', typed: '28', ...line },
      { ingredientId: cured.cure, role: 'cure', typed: String(cured.ounces), ...line },
    ],
  } as const;
}; // prettier-ignore

/** Adds an ingredient, or says something else of one. */
export function savesIngredient(shop: Shop, known: Ingredient | undefined, named: { name: string; isCure: boolean }, strength: number | null): Act {
  const { ingredients } = shop.book.smokehouse;
  const { name, isCure } = named;
  const taken = ingredients.some((one) => one.name === name && one.id !== known?.id);
  const ingredient = isCure ? { ...PINK, name, cure: { ...PINK.cure!, nitrite: strength } } : { ...SPICE, name };
  return act('recipes.saveIngredient', { ...(known && { id: known.id }), ingredient, by: 'RO' }, {
    refuse: because(
      [known === NO_INGREDIENT, 'ingredient.unknown'],
      [taken, 'ingredient.taken'],
      [isCure && strength !== null && strength > 1, 'cure.strength-percent'],
    ),
    done({ id }) {
      if (known) Object.assign(known, { name, isCure, strength: isCure ? strength : null });
      else ingredients.push({ id, name, away: false, isCure, strength: isCure ? strength : null });
    },
  });
} // prettier-ignore

export const saveIngredient: Step = {
  weight: 0.4,
  calls: ['recipes.saveIngredient'],
  draw(shop, dice) {
    const named = dice.pick([{ name: 'Salt', isCure: false }, { name: 'Pink cure', isCure: true }, { name: 'Other cure', isCure: true }]);
    const same = shop.book.smokehouse.ingredients.find(({ name }) => name === named.name);
    const known = dice.onceIn(20) ? NO_INGREDIENT : same && !dice.onceIn(4) ? same : undefined;
    return savesIngredient(shop, known, named, dice.pick([STRENGTH, STRENGTH, STRENGTH, null, 6.25]));
  },
}; // prettier-ignore

/** Adds a recipe, or another version of one. */
export function savesRecipe(shop: Shop, known: Recipe | undefined, name: string, cured: Cured | null, reason: string): Act {
  const { recipes } = shop.book.smokehouse;
  const product = cured ? 'Summer Sausage' : 'Bulk Sausage';
  const taken = recipes.some((one) => one.name === name && one.id !== known?.id);
  return act('recipes.save', { ...(known && { id: known.id }), name, product, body: bodyOf(cured) as never, reason, by: 'RO' }, {
    refuse: because(
      [taken, 'recipe.taken'], [known === NO_RECIPE, 'recipe.unknown'], [known !== undefined && reason === '', 'recipe.reason'],
    ),
    done({ id }) {
      if (known) Object.assign(known, { name, product, cured, versions: known.versions + 1 });
      else recipes.push({ id, name, product, away: false, versions: 1, cured, ready: false });
    },
  });
} // prettier-ignore

/** Salt and the newest cure of the shop, or null while it lacks one. */
function curedBy(shop: Shop, ounces: number): Cured | null {
  const { ingredients } = shop.book.smokehouse;
  const salt = ingredients.find(({ name }) => name === 'Salt');
  const cure = ingredients.findLast(({ isCure, name }) => isCure && name.endsWith(' cure'));
  return salt && cure ? { salt: salt.id, cure: cure.id, ounces } : null;
}

export const saveRecipe: Step = {
  weight: 0.75,
  calls: ['recipes.save'],
  draw(shop, dice) {
    const name = dice.pick(['House grind', 'Summer', 'Fair sausage']);
    const same = shop.book.smokehouse.recipes.find((one) => one.name === name);
    const known = dice.onceIn(20) ? NO_RECIPE : same && !dice.onceIn(4) ? same : undefined;
    const cured = name === 'House grind' ? null : curedBy(shop, dice.pick([4, 4, 8]));
    return savesRecipe(shop, known, name, cured, dice.pick(['less salt', 'for the fair', '']));
  },
};

export const offerRecipe: Step = {
  weight: 0.15,
  calls: ['recipes.archive', 'recipes.restore'],
  draw(shop, dice) {
    const call = dice.pick(['recipes.archive', 'recipes.restore', 'recipes.restore'] as const);
    const recipe = dice.mostly(shop.book.smokehouse.recipes, [NO_RECIPE]);
    if (!recipe) return null;
    return act(call, { id: recipe.id }, {
      refuse: because([recipe === NO_RECIPE, 'recipe.unknown']),
      done: () => void (recipe.away = call === 'recipes.archive'),
    });
  },
}; // prettier-ignore

export const offerIngredient: Step = {
  weight: 0.15,
  calls: ['recipes.archiveIngredient', 'recipes.restoreIngredient'],
  draw(shop, dice) {
    const call = dice.pick(['recipes.archiveIngredient', 'recipes.restoreIngredient'] as const);
    const ingredient = dice.mostly(shop.book.smokehouse.ingredients, [NO_INGREDIENT]);
    if (!ingredient) return null;
    return act(call, { id: ingredient.id }, {
      refuse: because([ingredient === NO_INGREDIENT, 'ingredient.unknown']),
      done: () => void (ingredient.away = call === 'recipes.archiveIngredient'),
    });
  },
}; // prettier-ignore

/** A recipe that came with the program, with those of its ingredients that the shop lacks. */
export const takeOverRecipe: Step = {
  weight: 0.1,
  calls: ['recipes.addReady'],
  draw(shop, dice) {
    const code = dice.pick(['bologna', 'breakfast', 'nothing']);
    const name = { bologna: 'Ring bologna', breakfast: 'Breakfast sausage', nothing: '' }[code] ?? '';
    const taken = shop.book.smokehouse.recipes.some((one) => one.name === name);
    return act('recipes.addReady', { code }, {
      refuse: because([code === 'nothing', 'recipe.ready-unknown'], [taken, 'recipe.taken']),
      then: async (driver) => readIn(driver),
    });
  },
}; // prettier-ignore

/** What a ready recipe brought along stands in the book only. */
function readIn(driver: Driver): void {
  const { ingredients, recipes } = driver.shop.book.smokehouse;
  const after = (table: string, columns: string, known: readonly { id: number }[]) =>
    driver.rows(
      `SELECT ${table}_id AS id, max(id) AS newest, name, ${columns} FROM ${table}_version WHERE ${table}_id > ? GROUP BY ${table}_id ORDER BY 1`,
      known.at(-1)?.id ?? 0,
    );
  for (const { id, name, kind, nitrite } of after('ingredient', 'kind, nitrite', ingredients))
    ingredients.push({ id: Number(id), name: String(name), away: false, isCure: kind === 'cure', strength: nitrite as number | null });
  for (const { id, name, product } of after('recipe', 'product', recipes))
    recipes.push({ id: Number(id), name: String(name), product: String(product), away: false, versions: 1, cured: null, ready: true });
} // prettier-ignore

const LOOKS: readonly ((shop: Shop, dice: Dice) => Act)[] = [
  (shop) => act('recipes.list', {}, {
    done({ recipes, ingredients }) {
      const { smokehouse } = shop.book;
      const told = (rows: readonly { name: string; offered: boolean }[]) => rows.map(({ name, offered }) => `${name} ${offered}`).sort();
      const known = (rows: readonly { name: string; away: boolean }[]) => told(rows.map(({ name, away }) => ({ name, offered: !away })));
      same('recipes', told(recipes), known(smokehouse.recipes));
      same('ingredients', told(ingredients), known(smokehouse.ingredients));
    },
  }),
  (shop, dice) => {
    const recipe = dice.mostly(shop.book.smokehouse.recipes, [NO_RECIPE]) ?? NO_RECIPE;
    return act('recipes.get', { id: recipe.id }, {
      refuse: because([recipe === NO_RECIPE, 'recipe.unknown']),
      done({ name, versions, offered }) {
        same('recipe', [name, versions.length, offered], [recipe.name, recipe.versions, !recipe.away]);
      },
    });
  },
  (shop, dice) => {
    const ounces = dice.pick([4, 8]);
    const cured = curedBy(shop, ounces);
    const strength = shop.book.smokehouse.ingredients.find(({ id }) => id === cured?.cure)?.strength ?? null;
    return act('recipes.check', { body: bodyOf(cured) as never }, {
      done({ ppm, mayStart }) {
        if (!cured) return same('nothing cured', ppm?.nitrite ?? 0, 0);
        same('may start', mayStart, strength !== null && ounces === 4);
        const ingoing = strength === null ? null : (scaled(ounces, 100 * GRAMS.lb) * strength * 1e6) / (100 * GRAMS.lb);
        if (Math.abs((ppm?.nitrite ?? 0) - (ingoing ?? 0)) > 2) throw new Error(`${ppm?.nitrite} ppm, the model ${ingoing} ppm`);
      },
    });
  },
]; // prettier-ignore

export const lookAtRecipes: Step = {
  weight: 0.4,
  calls: ['recipes.list', 'recipes.get', 'recipes.check'],
  draw: (shop, dice) => dice.pick(LOOKS)(shop, dice),
};
