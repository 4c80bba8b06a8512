import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  allergensOfWhole,
  requireIngredients,
  type Ingredient,
  type Library,
} from '../../../src/core/curing/ingredients.ts';
import { labelLines } from '../../../src/core/curing/label.ts';
import { perGramOfMeat, requireRecipe, type CuringRecipe } from '../../../src/core/curing/recipe.ts';
import { scaleRecipe } from '../../../src/core/curing/scaling.ts';

const simple = (name: string, allergens: Ingredient['allergens'] = []): Ingredient => ({
  name,
  parts: [],
  allergens,
});
const library: Library = {
  salt: simple('salt'),
  pink: { name: 'cure', parts: ['salt', 'nitrite'], allergens: [] },
  nitrite: simple('sodium nitrite'),
  pepper: simple('black pepper'),
  water: simple('water'),
  milk: simple('nonfat dry milk', [{ allergen: 'milk' }]),
  sauce: { name: 'Worcestershire sauce', parts: ['anchovy', 'soy'], allergens: 'by-parts' },
  anchovy: simple('anchovies', [{ allergen: 'fish', kind: 'anchovy' }]),
  soy: { name: 'soy sauce', parts: null, allergens: [{ allergen: 'soy' }, { allergen: 'wheat' }] },
  blend: { name: 'sausage seasoning', parts: null, allergens: 'unknown' },
  half: { name: 'half-read blend', parts: ['salt', 'blend'], allergens: 'by-parts' },
}; // prettier-ignore

/** Summer sausage of 60 % deer and 40 % pork trim: 28 oz of salt, 4 oz of cure, 12 oz of pepper and 3 lb of water on 100 lb. */
const recipe: CuringRecipe = {
  meat: [
    { id: 'deer', kind: 'game', name: 'venison', share: 0.6, fat: null },
    { id: 'pork', kind: 'pork', name: 'pork', share: 0.4, fat: 0.5 },
  ],
  additions: [
    { ingredient: 'salt', role: 'salt', amount: { value: 28, unit: 'oz', per: '100 lb' } },
    { ingredient: 'pink', role: 'cure', amount: { value: 2.5, unit: 'g', per: 'kg' } },
    { ingredient: 'pepper', role: 'seasoning', amount: { value: 12, unit: 'oz', per: '100 lb' } },
    { ingredient: 'water', role: 'water', amount: { value: 3, unit: 'lb', per: '100 lb' } },
  ],
};
const scales = { smallStep: 1, largeStep: 50 };
const throwing = (code: string) => expect.objectContaining({ name: 'ValidationError', code });

describe('a recipe', () => {
  it('has amounts per 100 lb and per kg that mean the same', () => {
    expect(perGramOfMeat({ value: 4, unit: 'oz', per: '100 lb' })).toBeCloseTo(0.0025, 15);
    expect(perGramOfMeat({ value: 2.5, unit: 'g', per: 'kg' })).toBeCloseTo(0.0025, 15);
  });

  it('is scaled to what was weighed, cure rounded down and the rest to the nearest step', () => {
    // 17.3 kg of deer and 11.7 kg of pork: 29 kg. Cure 72.5 → 72 g; salt 0.0175 × 29,000 = 507.5 → 508 g;
    // pepper 0.0075 × 29,000 = 217.5 → 218 g; water 870 → 850 g.
    const batch = scaleRecipe(recipe, library, { deer: 17_300, pork: 11_700 }, scales);
    expect(batch.greenGrams).toBe(29_000);
    expect(batch.additions.map(({ ingredient, grams }) => [ingredient, grams])).toEqual([
      ['salt', 508], ['pink', 72], ['pepper', 218], ['water', 850],
    ]); // prettier-ignore
    expect(batch.totalGrams).toBe(29_000 + 508 + 72 + 218 + 850);
    expect(batch.meat[0]).toMatchObject({ share: 17_300 / 29_000, recipeShare: 0.6 });
  });

  it('asks for a finer scale for little cure and seasoning, never for little water', () => {
    // On 1 kg: cure 2.5 g, pepper 7.5 g and 30 g of water on scales of 2 and 50 g; salt 17.5 g is off by 1 g at most.
    const { additions } = scaleRecipe(recipe, library, { deer: 600, pork: 400 }, { ...scales, smallStep: 2 });
    expect(additions.filter(({ tooFine }) => tooFine).map(({ ingredient }) => ingredient)).toEqual([
      'pink',
      'pepper',
    ]);
  });

  it('never has more cure than the recipe, whatever was weighed', () => {
    const grams = fc.double({ min: 0, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(grams, grams, fc.constantFrom(0.1, 0.5, 1, 2, 5), (deer, pork, smallStep) => {
        fc.pre(deer + pork > 0);
        const { additions, totalGrams, greenGrams } = scaleRecipe(recipe, library, { deer, pork }, { smallStep, largeStep: 10 });
        const cure = additions.find(({ role }) => role === 'cure');
        expect(cure?.grams).toBeLessThanOrEqual(0.0025 * (deer + pork) * (1 + 1e-12));
        expect(totalGrams).toBeCloseTo(greenGrams + additions.reduce((sum, one) => sum + one.grams, 0), 6);
      }),
      { numRuns: 1000 },
    ); // prettier-ignore
  });

  it.each([
    ['water alone', { ...recipe, meat: [] }, 'recipe.no-meat'],
    ['a meat block of nothing', { ...recipe, meat: [{ ...recipe.meat[0]!, share: 0 }] }, 'recipe.no-meat'],
    ['shares that are not the whole', { ...recipe, meat: recipe.meat.slice(0, 1) }, 'recipe.shares'],
    ['percent of fat', { ...recipe, meat: [recipe.meat[0]!, { ...recipe.meat[1]!, fat: 50 }] }, 'share.out-of-range'],
    ['a thousand ingredients', { ...recipe, additions: Array.from({ length: 1000 }, (_, i) => ({ ...recipe.additions[0]!, ingredient: `${i}` })) }, 'recipe.too-many'],
    ['an ingredient twice', { ...recipe, additions: [recipe.additions[0]!, recipe.additions[0]!] }, 'id.duplicate'],
    ['an unknown ingredient', { ...recipe, additions: [{ ...recipe.additions[0]!, ingredient: 'gone' }] }, 'ingredient.unknown'],
    ['a name of the prototype', { ...recipe, additions: [{ ...recipe.additions[0]!, ingredient: 'toString' }] }, 'ingredient.unknown'],
    ['a negative amount', { ...recipe, additions: [{ ...recipe.additions[0]!, amount: { value: -1, unit: 'g', per: 'kg' } }] }, 'amount.negative'],
    ['no amount', { ...recipe, additions: [{ ...recipe.additions[0]!, amount: { value: NaN, unit: 'g', per: 'kg' } }] }, 'number.not-finite'],
    ['more salt than meat', { ...recipe, additions: [{ ...recipe.additions[0]!, amount: { value: 1001, unit: 'g', per: 'kg' } }] }, 'amount.too-much'],
  ] as [string, CuringRecipe, string][])('refuses %s', (_, wrong, code) => expect(() => requireRecipe(wrong, library)).toThrow(throwing(code))); // prettier-ignore

  it('refuses weights that do not fit its meat block', () => {
    const weigh = (weighed: Record<string, number>) => () => scaleRecipe(recipe, library, weighed, scales);
    expect(weigh({ deer: 1 })).toThrow(throwing('meat.missing'));
    expect(weigh({ deer: 1, pork: 0, elk: 1 })).toThrow(throwing('meat.unknown'));
    expect(weigh({ deer: 0, pork: 0 })).toThrow(throwing('recipe.no-meat'));
    expect(weigh({ deer: -1, pork: 2 })).toThrow(throwing('grams.negative'));
  });
});

describe('ingredients', () => {
  it('that contain themselves are refused with the way around', () => {
    const circle: Library = { a: { name: 'a', parts: ['b'], allergens: [] }, b: { name: 'b', parts: ['a'], allergens: [] } };
    expect(() => requireIngredients(['a'], circle)).toThrow(
      expect.objectContaining({ code: 'ingredient.circle', with: { path: 'a > b > a' } }),
    );
    const deep: Library = Object.fromEntries(
      Array.from({ length: 10 }, (_, i) => [`${i}`, { name: `${i}`, parts: i < 9 ? [`${i + 1}`] : [], allergens: [] }]),
    );
    expect(() => requireIngredients(['0'], deep)).toThrow(throwing('ingredient.too-deep'));
    // Ten of ten of ten of ten: each a short list, together ten thousand.
    const wide: Library = Object.fromEntries(
      ['a', 'b', 'c', 'd', 'e'].map((id, i, all) => [id, { name: id, parts: i < 4 ? Array.from({ length: 10 }, () => all[i + 1] ?? '') : [], allergens: [] }]),
    );
    expect(() => requireIngredients(['a'], wide)).toThrow(throwing('ingredient.too-many'));
  }); // prettier-ignore

  it('give the allergens of the whole with kinds and origin; what is unknown is never none', () => {
    expect(allergensOfWhole(['salt', 'sauce', 'milk'], library)).toEqual({
      contains: [
        { allergen: 'milk', kinds: [], from: ['milk'] },
        { allergen: 'fish', kinds: ['anchovy'], from: ['sauce'] },
        { allergen: 'wheat', kinds: [], from: ['sauce'] },
        { allergen: 'soy', kinds: [], from: ['sauce'] },
      ],
      unknown: [],
    });
    expect(allergensOfWhole(['salt', 'blend'], library)).toEqual({ contains: [], unknown: ['blend'] });
    expect(allergensOfWhole(['half'], library).unknown).toEqual(['half']);
    // Stated to follow from parts, and the packet was not read.
    expect(allergensOfWhole(['x'], { x: { name: 'x', parts: null, allergens: 'by-parts' } }).unknown).toEqual(
      ['x'],
    );
  });

  it('never lose an unknown part or a stated allergen, however deep it is', () => {
    const chain = (depth: number, last: Ingredient): Library => ({
      ...Object.fromEntries(Array.from({ length: depth }, (_, i) => [`${i}`, { name: `${i}`, parts: [`${i + 1}`], allergens: 'by-parts' as const }])),
      [depth]: last,
    });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 6 }), (depth) => {
        expect(allergensOfWhole(['0'], chain(depth, simple('x', 'unknown'))).unknown).toEqual(['0']);
        expect(allergensOfWhole(['0'], chain(depth, simple('x', [{ allergen: 'egg' }])))).toMatchObject({ contains: [{ allergen: 'egg' }], unknown: [] });
      }),
    );
  }); // prettier-ignore
});

describe('the ingredients of a label', () => {
  it('stand by weight, blends with what is in them, and unread ones as unknown', () => {
    const lines = labelLines(
      [
        { meat: 'pork', grams: 400 }, { ingredient: 'salt', grams: 17 }, { ingredient: 'pink', grams: 2.5 },
        { meat: 'venison', grams: 600 }, { ingredient: 'blend', grams: 20 }, { ingredient: 'salt', grams: 5 },
        { ingredient: 'pepper', grams: 0 },
      ],
      library,
    ); // prettier-ignore
    expect(lines.map(({ name }) => name)).toEqual(['venison', 'pork', 'salt', 'sausage seasoning', 'cure']);
    expect(lines[2]?.grams).toBe(22);
    expect(lines[3]?.parts).toBe('unknown');
    expect(lines[4]?.parts).toEqual([{ name: 'salt', parts: [] }, { name: 'sodium nitrite', parts: [] }]); // prettier-ignore
  });

  it('keep two blends of one name apart where they hold different things', () => {
    const two: Library = { ...library, other: { name: 'cure', parts: ['nitrite'], allergens: [] } };
    const lines = labelLines([{ ingredient: 'pink', grams: 1 }, { ingredient: 'other', grams: 2 }], two); // prettier-ignore
    expect(lines.map(({ name, grams }) => [name, grams])).toEqual([['cure', 2], ['cure', 1]]); // prettier-ignore
  });

  it('descend by weight in any order they went in, and add up', () => {
    const one = fc.record({ ingredient: fc.constantFrom(...Object.keys(library)), grams: fc.integer({ min: 1, max: 1000 }) });
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: 30 }), (wentIn) => {
        const lines = labelLines(wentIn, library);
        const grams = lines.map((line) => line.grams);
        expect(grams).toEqual(grams.toSorted((a, b) => b - a));
        expect(grams.reduce((a, b) => a + b)).toBe(wentIn.reduce((sum, { grams: each }) => sum + each, 0));
        expect(labelLines(wentIn.toReversed(), library)).toEqual(lines);
      }),
    );
  }); // prettier-ignore

  it('are refused for nothing at all and for a negative weight', () => {
    expect(() => labelLines([], library)).toThrow(throwing('label.empty'));
    expect(() => labelLines([{ meat: 'pork', grams: -1 }], library)).toThrow(throwing('grams.negative'));
  });
});
