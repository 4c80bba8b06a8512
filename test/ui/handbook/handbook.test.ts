// @vitest-environment happy-dom
/** The handbook: every page has its words, names what the window shows, and finds what is asked. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { nextTick } from 'vue';
import { createMemoryHistory, createRouter } from 'vue-router';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { findQuestions, questionsOf } from '../../../src/ui/handbook/find.ts';
import { handbookOf } from '../../../src/ui/handbook/handbook-of.ts';
import HandbookPage from '../../../src/ui/handbook/HandbookPage.vue';
import { handbookPages } from '../../../src/ui/handbook/pages.ts';
import { text } from '../../../src/words/compiled/window/handbook.ts';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

const WORDS = join(import.meta.dirname, '../../../src/words');
const OWN = 'handbook.arb';
const languages = readdirSync(WORDS, { withFileTypes: true })
  .filter((one) => one.isDirectory() && /^[a-z]{2}-[A-Z]{2}$/.test(one.name))
  .map(({ name }) => name);

function messagesOf(language: string, wanted: (file: string) => boolean): Record<string, string> {
  const folder = join(WORDS, language);
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
    (file) => file.endsWith('.arb') && wanted(file),
  );
  const all = files.flatMap((file) => {
    const lines = JSON.parse(readFileSync(join(folder, file), 'utf8')) as Record<string, unknown>;
    return Object.entries(lines).filter(([key]) => !key.startsWith('@'));
  });
  return Object.fromEntries(all.map(([key, message], at) => [`${at} ${key}`, String(message)]));
}

it('has words for every page', () => {
  expect(Object.keys(handbookPages)).toEqual(Object.keys(text.page));
  expect(questionsOf('first').length).toBeGreaterThan(3);
});

it.each(languages)('names buttons and fields as the window does, in %s', (language) => {
  const shown = new Set(Object.values(messagesOf(language, (file) => !file.endsWith(OWN))));
  const source = new Set(Object.values(messagesOf('en-US', (file) => !file.endsWith(OWN))));
  // An overlay says only what differs.
  const known = (name: string) => shown.has(name) || (language.startsWith('en') && source.has(name));
  const told = Object.values(messagesOf(language, (file) => file.endsWith(OWN))).join('\n');
  const names = [...told.matchAll(/[“«]\s?([^”»{]+?)\s?[”»]/g)].map(([, name]) => name ?? '');
  if (language === 'en-US') expect(names.length).toBeGreaterThan(60);
  expect(names.filter((name) => !known(name))).toEqual([]);
});

describe('a search', () => {
  it('finds questions by all of their words, whatever the case', () => {
    expect(findQuestions('DISCOUNT bill').map(({ page, code }) => `${page} ${code}`)).toEqual([
      'pickup discount',
    ]);
  });
  it('finds nothing for nothing, and nothing for what is not told', () => {
    expect(findQuestions('  ')).toEqual([]);
    expect(findQuestions('discount zebra')).toEqual([]);
  });
});

it.each([
  ['/table/26-0001', 'table', '/handbook/table'],
  ['/till', 'pickup', '/handbook/till'],
  ['/handbook/rail', 'shop', '/handbook'],
  ['/cautions', 'shop', '/handbook/shop'],
])('%s has its page', (path, place, handbook) => {
  expect(handbookOf({ path, meta: { place } as never })).toBe(handbook);
});

describe('the page', () => {
  beforeEach(() => openWindow());
  const show = (page?: string) =>
    mountPart(HandbookPage, {
      props: { page },
      global: {
        plugins: [
          createRouter({
            history: createMemoryHistory(),
            routes: [{ path: '/:rest(.*)*', component: { template: '' } }],
          }),
        ],
      },
    });

  it('shows what a place is for and its questions', () => {
    const shown = show('table');
    expect(shown.get('h1').text()).toBe('Handbook: Table');
    expect(shown.findAll('h2').map((one) => one.text())).toContain('How do I correct a wrong weight?');
    expect(shown.get('[aria-current=page]').text()).toBe('Table');
  });

  it('opens the first page for an unknown one', () => {
    expect(show('nowhere').get('h1').text()).toBe('Handbook: First day');
  });

  it('searches all pages while something is typed', async () => {
    const shown = show('rail');
    await shown.get('input').setValue('deposit');
    expect(shown.findAll('h2').map((one) => one.text())).toEqual(['How do I take a deposit?']);
    await shown.get('input').setValue('zebra');
    await nextTick();
    expect(shown.findAll('h2')).toEqual([]);
    expect(shown.text()).toContain('Nothing about “zebra”.');
  });
});
