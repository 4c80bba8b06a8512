// @vitest-environment happy-dom
/** The map of a carcass while its drawing is fetched, with it, and without. */
import { readFileSync } from 'node:fs';
import { flushPromises } from '@vue/test-utils';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import CarcassMap from '../../../src/ui/carcass/CarcassMap.vue';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

const primals = [
  { code: 'neck', name: 'Neck', pair: false },
  { code: 'shoulder', name: 'Shoulder', pair: true },
  { code: 'own', name: 'A piece of our own', pair: false },
];
const show = (body: string) => mountPart(CarcassMap, { props: { body, primals, label: 'Primals' } });
const names = (shown: ReturnType<typeof show>) =>
  shown
    .findAll('[role=radio]')
    .map((one) => [one.element.tagName.toLowerCase(), one.attributes('data-primal')]);

beforeEach(() => openWindow());
afterEach(() => vi.unstubAllGlobals());

it('shows the regions once the drawing is there, and what it lacks as buttons', async () => {
  const fetched = vi.fn((file: string) =>
    Promise.resolve(
      new Response(readFileSync(`src/ui/carcass/drawings/${/(\w+)\.svg/.exec(file)?.[1]}.svg`)),
    ),
  );
  vi.stubGlobal('fetch', fetched);
  const shown = show('bear');
  expect(names(shown)).toEqual([]);
  expect(shown.find('.waiting').exists()).toBe(true);
  await vi.waitFor(() => expect(names(shown)).toHaveLength(3));
  expect(names(shown)).toEqual([
    ['g', 'neck'],
    ['g', 'shoulder'],
    ['button', 'own'],
  ]);
  show('bear');
  expect(fetched).toHaveBeenCalledTimes(1);
});

it('shows buttons for an animal without a drawing', async () => {
  const shown = show('whale');
  await flushPromises();
  expect(names(shown).map(([tag]) => tag)).toEqual(['button', 'button', 'button']);
});

it('shows buttons where the drawing cannot be fetched', async () => {
  vi.stubGlobal('fetch', () => Promise.resolve(new Response('', { status: 404 })));
  const shown = show('bison');
  await vi.waitFor(() => expect(names(shown).map(([tag]) => tag)).toEqual(['button', 'button', 'button']));
});
