/** Recipes and ingredients for tests. */
import type { IngredientInput, RecipeBody } from '../../../src/desk/contract/contract.ts';
import type { FreshDesk } from '../fresh-desk.ts';

/** Ground game alone, nothing added, raw. */
export const PLAIN: RecipeBody = {
  meat: [{ kind: 'game', name: 'Game', share: 1, fat: null }],
  additions: [],
  form: 'ground',
  bacon: false,
  method: 'none',
  class: null,
  pickUp: null,
  immersedBy: null,
  skinOn: false,
  finish: 'raw',
  readyToEat: false,
  keep: 'frozen',
  cookedSoon: true,
  lowHeat: false,
  lossKind: 'fresh',
  standard: null,
  heat: null,
  casing: null,
  packageGrams: null,
  note: '',
};

export const SPICE: IngredientInput = {
  name: 'Fennel',
  kind: 'plain',
  parts: [],
  allergens: [],
  cure: null,
  note: '',
};

/** A packet with 6.25 % of nitrite and nothing else of a cure. */
export const PINK: IngredientInput = {
  ...SPICE,
  name: 'Pink cure',
  kind: 'cure',
  cure: {
    nitrite: 0.0625,
    nitrate: 0,
    accelerator: 0,
    salt: null,
    nitriteAs: 'sodium',
    typed: '6.25%',
    uses: null,
  },
};

export async function addIngredient(shop: FreshDesk, ingredient: IngredientInput): Promise<number> {
  return (await shop.call('recipes.saveIngredient', { ingredient })).id;
}

/** Ground, cured with so much of this cure. */
export function curedWith(ingredientId: number, typed: string, more: Partial<RecipeBody> = {}): RecipeBody {
  return {
    ...PLAIN,
    method: 'mixed-in',
    class: 'ground',
    finish: 'cooked',
    lossKind: 'cooked',
    keep: 'refrigerated',
    additions: [{ ingredientId, role: 'cure', typed, unit: 'oz', per: '100 lb', into: 'meat' }],
    ...more,
  };
}
