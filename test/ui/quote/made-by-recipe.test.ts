// @vitest-environment happy-dom
/** What a quote says of products made by a recipe. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { reactive } from 'vue';
import type { QuoteResult } from '../../../src/bridge/contract.ts';
import GrindFields from '../../../src/ui/orders/GrindFields.vue';
import { emptyAlso, typeInstructions, usualInstructions } from '../../../src/ui/orders/instructions-form.ts';
import { readInstructions } from '../../../src/ui/orders/read-instructions.ts';
import MadeByRecipe from '../../../src/ui/quote/MadeByRecipe.vue';
import { mountPart, openWindow } from '../mount-part.ts';

const LB = 453.59237;
const range = (low: number, mean: number, high: number) => ({
  low: low * LB,
  mean: mean * LB,
  high: high * LB,
});
const STICKS: QuoteResult['products'][number] = {
  product: 'Snack sticks',
  grams: range(12.8, 13.46, 14.1),
  packages: { low: 13, mean: 14, high: 15 },
  patties: null,
  recipe: {
    recipeId: 7,
    name: 'Hot sticks',
    trimGrams: range(15, 15, 15),
    boughtGrams: range(5, 5, 5),
    takes: { finishedGrams: 10 * LB, trim: { low: 15.2 * LB, middle: 16.04 * LB, high: 17 * LB } },
    forecast: { middle: 0.66, low: 0.63, high: 0.69, level: 0.8, batches: 6, assumed: null },
  },
};
const recipes = [
  { id: 7, name: 'Hot sticks', product: 'Snack sticks', meat: [{ name: 'Game', share: 1 }] },
  { id: 9, name: 'Mild sticks', product: 'Snack sticks', meat: [{ name: 'Game', share: 0.7 }, { name: 'Pork', share: 0.3 }] },
]; // prettier-ignore

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => openWindow({ recipes }));

describe('products made by a recipe', () => {
  it('say how much trim a round weight takes, and how many batches say so', () => {
    const text = mountPart(MadeByRecipe, { props: { products: [STICKS] } }).text();
    expect(text).toContain('15.0 lb of trim and 5.0 lb of bought meat make about 13.5 lb of Snack sticks.');
    expect(text).toContain('10 lb of Snack sticks take about 16.0 lb of trim (15.2–17.0 lb).');
    expect(text).toContain('The loss is based on 6 batches that you made.');
  });

  it('say what is assumed before the shop made its own', () => {
    const source = { source: '', grade: 'assumption', cites: [] } as never;
    const forecast = { ...STICKS.recipe!.forecast, batches: 1, assumed: { name: 'Sticks', low: 0.55, high: 0.8, source } };
    const products = [{ ...STICKS, recipe: { ...STICKS.recipe!, boughtGrams: range(0, 0, 0), forecast } }];
    const text = mountPart(MadeByRecipe, { props: { products } }).text();
    expect(text).toContain('15.0 lb of trim makes about 13.5 lb of Snack sticks.');
    expect(text).toContain('The loss is based on 1 batch that you made and on an assumption: 8 in 10 such products keep 55% to 80% of their weight.');
  }); // prettier-ignore

  it('are no lines for what is only ground', () => {
    const products = [{ ...STICKS, recipe: null }];
    expect(mountPart(MadeByRecipe, { props: { products } }).find('ul').exists()).toBe(false);
  });
});

describe('a grind of the cut sheet', () => {
  it('offers the recipes of its product in place of fat, and names the one that is chosen', async () => {
    const form = reactive({ ...emptyAlso(), product: 'snack sticks', trim: '15 lb' });
    const part = mountPart(GrindFields, {
      props: { modelValue: form, label: 'Product', wrong: {}, at: '' },
    });
    await flushPromises();
    expect(part.text()).toContain('100% Game');
    expect(part.text()).not.toContain('Fat added');
    await part.find('select').setValue('9');
    expect(form.recipe).toBe(9);
    const typed = { ...usualInstructions('lb'), also: [form] };
    const { value } = readInstructions(typed, 'lb');
    expect(value?.alsoGround[0]).toMatchObject({ product: 'snack sticks', recipeId: 9 });
    expect(typeInstructions(value!, 'lb').also[0]).toMatchObject({ recipe: 9 });
  });
});
