/** For every call of the smokehouse that writes, a shop that is ready for it and an input that it takes. */
import type { CallName } from '../../../src/bridge/contract.ts';
import type { FreshDesk } from '../fresh-desk.ts';
import type { Prepare } from '../tried-writes.ts';
import { addIngredient, PLAIN, SPICE } from './recipe-of.ts';

let made = 0;
const newName = (what: string): string => `${what} ${(made += 1)}`;
const ingredient = (shop: FreshDesk): Promise<number> =>
  addIngredient(shop, { ...SPICE, name: newName('Fennel') });
const recipe = async (shop: FreshDesk): Promise<number> =>
  (
    await shop.call('recipes.save', {
      name: newName('House grind'),
      product: 'House Grind',
      body: {
        ...PLAIN,
        additions: [
          { ingredientId: await ingredient(shop), role: 'seasoning', typed: '4', unit: 'oz', per: '100 lb', into: 'meat' },
        ],
        casing: { name: 'Hog', diameterMm: 33, filledMm: null, holdsTyped: '4 oz' },
        heat: { level: 'log65', cooling: 'option-1', steps: [{ what: 'Smoke', ovenF: 150, humidity: null, minutes: 60, untilF: null }] },
      },
    })
  ).id; // prettier-ignore

export const TRIED_SMOKEHOUSE: Partial<Record<CallName, Prepare>> = {
  'recipes.save': async (shop) => {
    const { body } = await shop.call('recipes.get', { id: await recipe(shop) });
    return [
      'recipes.save',
      { name: newName('House salami'), product: 'Salami', body, reason: 'for the fair', id: null },
    ];
  },
  'recipes.archive': async (shop) => ['recipes.archive', { id: await recipe(shop) }],
  'recipes.restore': async (shop) => {
    const id = await recipe(shop);
    await shop.call('recipes.archive', { id });
    return ['recipes.restore', { id }];
  },
  'recipes.addReady': () => ['recipes.addReady', { code: 'bologna' }],
  'recipes.saveIngredient': () => [
    'recipes.saveIngredient',
    { ingredient: { ...SPICE, name: newName('Fennel'), allergens: [{ allergen: 'tree-nuts', kind: 'almond' }] } },
  ], // prettier-ignore
  'recipes.archiveIngredient': async (shop) => ['recipes.archiveIngredient', { id: await ingredient(shop) }],
  'recipes.restoreIngredient': async (shop) => {
    const id = await ingredient(shop);
    await shop.call('recipes.archiveIngredient', { id });
    return ['recipes.restoreIngredient', { id }];
  },
};
