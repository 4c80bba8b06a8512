// @vitest-environment happy-dom
/** Which of its three screens the window shows; each is remounted for another opening of a book. */
import { flushPromises } from '@vue/test-utils';
import { beforeEach, expect, it, vi } from 'vitest';
import { defineComponent, h } from 'vue';
import { createMemoryHistory, createRouter } from 'vue-router';
import App from '../../src/ui/App.vue';
import { useShop } from '../../src/ui/stores/shop.ts';
import { mountPart, openWindow } from './mount-part.ts';
import { desk } from './played-desk.ts';

const begun: string[] = [];
const face = (name: string) =>
  defineComponent({
    setup() {
      begun.push(name);
      return () => h('p', name);
    },
  });
const stubs = { Frame: face('frame'), NoBook: face('no book'), Greeting: face('greeting') };
vi.mock('../../src/bridge/client/index.ts', async () => (await import('./played-desk.ts')).client);
beforeEach(() => void (begun.length = 0));

async function app(look: object) {
  await openWindow(look);
  const router = createRouter({
    history: createMemoryHistory(),
    routes: [{ path: '/:place(.*)', component: face('place') }],
  });
  const wrapper = mountPart(App, { global: { plugins: [router], stubs } });
  const shows = async (next: object): Promise<string> => {
    const shop = useShop();
    if (shop.view) shop.take({ ...shop.view, ...next });
    await flushPromises();
    return wrapper.text();
  };
  return { wrapper, shows };
}

it('remounts the daily work for another opening, and keeps it for the same', async () => {
  const { shows } = await app({ opening: 'first' });
  expect(await shows({ today: '2026-11-25' })).toBe('frame');
  expect(begun).toEqual(['frame']);
  await shows({ opening: 'second' });
  expect(begun).toEqual(['frame', 'frame']);
});

it('remounts the greeting for another new book', async () => {
  const { shows } = await app({ opening: 'first', setUp: false });
  expect(await shows({})).toBe('greeting');
  await shows({ opening: 'second' });
  expect(begun).toEqual(['greeting', 'greeting']);
  expect(await shows({ demo: true })).toBe('frame');
});

it('reports that the book is not open', async () => {
  const { wrapper } = await app({});
  desk.answers['shop.get'] = () => ({ ok: false, problem: { kind: 'broken', code: 'book.missing' } });
  await useShop().load();
  await flushPromises();
  expect(wrapper.text()).toBe('no book');
});
