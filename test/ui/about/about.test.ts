// @vitest-environment happy-dom
/** The page About: what the program is comes first, and its packages are folded away. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import AboutPage from '../../../src/ui/about/AboutPage.vue';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);
beforeEach(async () => {
  vi.stubGlobal('fetch', async () => new Response('[]'));
  await openWindow();
});
afterEach(() => vi.unstubAllGlobals());

const AGENTS = [
  ['Mozilla/5.0 (X11; Linux x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/153.0.0.0 Safari/537.36 Edg/153.0', 'Edge 153'],
  ['Mozilla/5.0 (X11; Linux x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/153.0.0.0 Safari/537.36', 'Chrome 153'],
  ['Mozilla/5.0 (X11; Linux x64; rv:148.0) Gecko/20100101 Firefox/148.0', 'Firefox 148'],
] as const; // prettier-ignore

it.each(AGENTS)('names the browser, not all that it says of itself: %s', (agent, name) => {
  vi.stubGlobal('navigator', { userAgent: agent });
  const page = mountPart(AboutPage);
  expect(page.text()).toContain(`Runs in the browser ${name}`);
  expect(page.text()).not.toContain('Mozilla');
});

it('shows one line for all packages, which opens to each with its license', async () => {
  const licences = [
    { licence: 'MIT', text: 'Permission is granted.', packages: [{ name: 'vue', version: '3' }, { name: 'pinia', version: '4' }] },
    { licence: 'ISC', text: '', packages: [{ name: 'semver', version: '7' }] },
  ]; // prettier-ignore
  vi.stubGlobal('fetch', async () => new Response(JSON.stringify(licences)));
  const page = mountPart(AboutPage);
  await vi.waitFor(() => expect(page.find('details').exists()).toBe(true));
  const all = page.get('details');
  expect(all.get('summary').text()).toContain('Gambrel includes 3 packages.');
  expect((all.element as HTMLDetailsElement).open).toBe(false);
  expect(all.findAll('details')).toHaveLength(2);
  expect(page.findAll('details')).toHaveLength(3);
});
