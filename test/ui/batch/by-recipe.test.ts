// @vitest-environment happy-dom
/** A grind that its orders make by a recipe leads to its batch sheet with one press. */
import { beforeEach, expect, it, vi } from 'vitest';
import { flushPromises } from '@vue/test-utils';
import { createMemoryHistory, createRouter } from 'vue-router';
import type { BatchPage } from '../../../src/bridge/contract.ts';
import ByRecipe from '../../../src/ui/batch/ByRecipe.vue';
import { mountPart, openWindow } from '../mount-part.ts';
import { desk, ok } from '../played-desk.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(() => {
  desk.begin();
  openWindow();
});

const RECIPE = { id: 3, name: 'Summer sausage' };

function shown(more: Partial<BatchPage>) {
  const router = createRouter({ history: createMemoryHistory(), routes: [{ path: '/:all(.*)', component: {} }] });
  const batch = { id: 12, state: 'open', recipe: RECIPE, made: [], ...more } as unknown as BatchPage;
  return { router, part: mountPart(ByRecipe, { props: { batch }, global: { plugins: [router] } }) };
} // prettier-ignore

it('opens the sheet of the recipe on this grind, and goes there', async () => {
  desk.answers['made.open'] = () => ok({ id: 44, name: 'M26-044', batchId: 12 });
  const { router, part } = shown({});
  await part.find('button').trigger('click');
  await flushPromises();
  expect(desk.calls).toMatchObject([{ name: 'made.open', input: { recipeId: 3, batchId: 12 } }]);
  expect(router.currentRoute.value.path).toBe('/smokehouse/batch/44');
});

it('leads to the sheet that is open, and opens no second one', () => {
  const { part } = shown({ made: [{ id: 44, name: 'M26-044' }] });
  expect(part.findAll('button').map((one) => one.text())).toEqual(['Batch sheet M26-044']);
});

it.each([{ recipe: null }, { state: 'done' as const }])('is silent with %o', (more) => {
  expect(shown(more).part.text()).toBe('');
});
