// @vitest-environment happy-dom
import { defineComponent, h, nextTick } from 'vue';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { text } from '../../../src/words/compiled/window/about.ts';
import { offered } from '../../../src/words/compiled/languages.ts';
import LanguageField from '../../../src/ui/greeting/LanguageField.vue';
import { languages, SOURCE_LANGUAGE } from '../../../src/words/languages.ts';
import { useLanguage } from '../../../src/ui/stores/language.ts';
import { useShop } from '../../../src/ui/stores/shop.ts';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

const Title = defineComponent(() => () => h('p', `${text.title}. ${text.packagesHow({ count: 1234 })}`));

beforeEach(async () => {
  localStorage.clear();
  sessionStorage.clear();
  await openWindow();
});
afterEach(() => history.replaceState(null, '', '/'));

it('renders the words of a page again when the window gets another language', async () => {
  const page = mountPart(Title);
  expect(page.text()).toContain('About Gambrel. Gambrel includes 1,234 packages.');
  await useLanguage().choose('qps');
  await nextTick();
  expect(page.text()).toMatch(/^\[ÅÅ.*1,234 þáá/u);
  expect(document.documentElement.lang).toBe('qps');
  await useLanguage().choose(SOURCE_LANGUAGE);
  await nextTick();
  expect(page.text()).toContain('About Gambrel');
});

it('writes numbers by the shop’s format, apart from the language', async () => {
  const page = mountPart(Title);
  const shop = useShop();
  if (shop.view) shop.take({ ...shop.view, settings: { ...shop.view.settings, locale: 'de-DE' } });
  await nextTick();
  expect(page.text()).toContain('includes 1.234 packages');
});

it('keeps the language of this device, and lets the address ask for another', async () => {
  await useLanguage().choose('qps');
  await openWindow();
  await useLanguage().start();
  expect(useLanguage().current).toBe('qps');

  history.replaceState(null, '', '/?language=en-US');
  await openWindow();
  await useLanguage().start();
  expect(useLanguage().current).toBe('en-US');
  history.replaceState(null, '', '/?language=klingon');
  await openWindow();
  await useLanguage().start();
  expect(useLanguage().current).toBe('qps');
});

it('is that of this window after a reload, whatever another window chooses, and a new window takes the last', async () => {
  await useLanguage().choose('en-CA');
  // Another window of this device.
  localStorage.setItem('gambrel.language', 'qps');
  await openWindow();
  await useLanguage().start();
  expect(useLanguage().current).toBe('en-CA');
  sessionStorage.clear();
  await openWindow();
  await useLanguage().start();
  expect(useLanguage().current).toBe('qps');
});

it('tells the shell, whose menus follow', async () => {
  const told: string[] = [];
  vi.stubGlobal('gambrel', { speak: (language: string) => told.push(language) });
  await useLanguage().choose('en-CA');
  vi.unstubAllGlobals();
  expect(told).toEqual(['en-CA']);
});

it('is chosen from the complete languages, each named in itself, and changes at once', async () => {
  const field = mountPart(LanguageField);
  const options = field.findAll('option').map((one) => [one.text(), one.attributes('lang')]);
  expect(options).toEqual(offered.map((code) => [languages[code].name, code]));
  expect(options.flat()).not.toContain('qps');
  await field.get('select').setValue('en-CA');
  await expect.poll(() => useLanguage().current).toBe('en-CA');
  expect(document.documentElement.lang).toBe('en-CA');
});

it('names days and months in the language of the window, and leaves numbers to the shop', async () => {
  const shop = useShop();
  if (shop.view) shop.take({ ...shop.view, settings: { ...shop.view.settings, locale: 'de-DE' } });
  expect(shop.format.longDay('2026-12-24')).toBe('Dec 24, 2026');
  expect(shop.format.number(1234)).toBe('1.234');
});
