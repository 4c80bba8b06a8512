/** Forms of recipes and ingredients: what was stored comes back unchanged, and what was not read stays unknown. */
import { describe, expect, it } from 'vitest';
import type { IngredientCard } from '../../../../src/bridge/contract.ts';
import { readIngredient, typeIngredient } from '../../../../src/ui/smokehouse/recipes/ingredient-form.ts';
import {
  emptyRecipe,
  readLength,
  readRecipe,
  typeRecipe,
} from '../../../../src/ui/smokehouse/recipes/recipe-form.ts';
import { freshDesk } from '../../../desk/fresh-desk.ts';

describe('the form of a recipe', () => {
  it.each(['lb', 'kg'] as const)(
    'gives back each recipe that comes with the program, in %s',
    async (unit) => {
      const shop = await freshDesk(unit);
      const { ready } = await shop.call('recipes.list', {});
      expect(ready).toHaveLength(8);
      for (const { code } of ready) {
        const { id } = await shop.call('recipes.addReady', { code });
        const page = await shop.call('recipes.get', { id });
        expect(readRecipe(typeRecipe(page, unit), unit)).toEqual({ body: page.body, wrong: {} });
      }
    },
  );

  it('names each field that cannot be read, and sends nothing then', () => {
    const form = emptyRecipe();
    const [meat] = form.meat;
    Object.assign(meat!, { share: '70 %', fat: 'lean' });
    Object.assign(form, { casing: 'Fibrous', diameter: 'wide', package: 'one' });
    const { body, wrong } = readRecipe(form, 'lb');
    expect(body).toBeNull();
    expect(Object.keys(wrong).sort()).toEqual(['diameter', `meat.${meat!.key}.fat`, 'package'].sort());
  });

  it('drops what does not belong: no cook of a raw recipe, no class without a cure', () => {
    const form = { ...emptyRecipe(), cooling: 'option-1', class: 'ground' as const };
    expect(readRecipe(form, 'lb').body).toMatchObject({ heat: null, class: null });
    expect(readRecipe({ ...form, finish: 'cooked', method: 'mixed-in' }, 'lb').body).toMatchObject({
      heat: { level: 'log65', cooling: 'option-1', steps: [] },
      class: 'ground',
    });
  });

  it.each([
    ['63', 63],
    ['63 mm', 63],
    ['2.5 in', 63.5],
    ['2,5"', 63.5],
    ['20 cm', null],
    ['', null],
  ])('reads the length %s as %s mm', (typed, mm) => expect(readLength(typed)).toBe(mm));
});

describe('the form of an ingredient', () => {
  const cure: IngredientCard = {
    id: 4, name: 'Pink cure', kind: 'cure', parts: null, allergens: 'unknown', note: '', offered: true, at: '', by: 'KM',
    cure: { nitrite: 0.0625, nitrate: 0, accelerator: null, salt: null, nitriteAs: 'potassium', typed: '6.25%', uses: ['ground'] },
  }; // prettier-ignore

  it('gives back what was stored; a strength that was not read stays unread, and zero stays zero', () => {
    const input = readIngredient(typeIngredient(cure), cure);
    expect({ ...cure, ...input }).toEqual(cure);
    expect(Object.keys(input!)).toHaveLength(6);
  });

  it('is of unknown allergens when it is new', () =>
    expect(readIngredient({ ...typeIngredient(null), name: 'Blend 7' }, null)).toMatchObject({
      allergens: 'unknown',
      cure: null,
    }));

  it('tells none from unknown, and names the nut', () => {
    const form = { ...typeIngredient(null), name: 'Pecans', way: 'none' as const };
    expect(readIngredient(form, null)?.allergens).toEqual([]);
    const listed = {
      ...form,
      way: 'listed' as const,
      allergens: ['tree-nuts' as const],
      kinds: { 'tree-nuts': ' pecan ' },
    };
    expect(readIngredient(listed, null)?.allergens).toEqual([{ allergen: 'tree-nuts', kind: 'pecan' }]);
  });

  it('is not sent with a percentage that cannot be read', () =>
    expect(readIngredient({ ...typeIngredient(cure), nitrite: '6.25 of 100' }, cure)).toBeNull());
});
