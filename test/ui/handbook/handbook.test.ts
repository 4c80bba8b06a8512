// @vitest-environment happy-dom
/** The handbook: every page has its words, names what the window shows, and finds what is asked. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { flushPromises } from '@vue/test-utils';
import { createMemoryHistory, createRouter } from 'vue-router';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { handbookOf } from '../../../src/ui/handbook/handbook-of.ts';
import HelpHere from '../../../src/ui/handbook/HelpHere.vue';
import HandbookPage from '../../../src/ui/handbook/HandbookPage.vue';
import { handbookPages } from '../../../src/ui/handbook/pages.ts';
import { findQuestions, handbookFrom } from '../../../src/ui/handbook/texts.ts';
import { mountPart, openWindow } from '../mount-part.ts';

vi.mock('../../../src/bridge/client/index.ts', async () => (await import('../played-desk.ts')).client);

const WORDS = join(import.meta.dirname, '../../../src/words');
const OWN = 'pages.arb';
const compiled = JSON.parse(
  readFileSync(join(WORDS, 'compiled/handbook/pages/en-US.json'), 'utf8'),
) as Record<string, string>;
const handbook = handbookFrom(compiled);
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
  expect(Object.keys(handbookPages)).toEqual(Object.keys(handbook));
  for (const { about, questions } of Object.values(handbook)) {
    expect(about).not.toBe('');
    expect(questions.length).toBeGreaterThan(2);
    for (const { ask, steps } of questions) expect([ask, ...steps].filter((text) => text === '')).toEqual([]);
  }
});

it.each(languages)('names buttons and fields as the window does, in %s', (language) => {
  const shown = new Set(Object.values(messagesOf(language, (file) => !file.endsWith(OWN))));
  const source = new Set(Object.values(messagesOf('en-US', (file) => !file.endsWith(OWN))));
  // An overlay says only what differs.
  const known = (name: string) => shown.has(name) || (language.startsWith('en') && source.has(name));
  // Sources have titles of their own.
  const told = Object.entries(messagesOf(language, (file) => file.endsWith(OWN)))
    .flatMap(([key, text]) => (key.includes(' term.from.') ? [] : [text]))
    .join('\n');
  const names = [...told.matchAll(/[“«]\s?([^”»{]+?)\s?[”»]/g)].map(([, name]) => name ?? '');
  if (language === 'en-US') expect(names.length).toBeGreaterThan(60);
  expect(names.filter((name) => !known(name))).toEqual([]);
});

describe('a search', () => {
  it('finds questions by all of their words, whatever the case', () => {
    expect(findQuestions(handbook, 'DISCOUNT bill').map(({ page, code }) => `${page} ${code}`)).toEqual([
      'pickup discount',
    ]);
  });
  it('finds nothing for nothing, and nothing for what is not told', () => {
    expect(findQuestions(handbook, '  ')).toEqual([]);
    expect(findQuestions(handbook, 'discount zebra')).toEqual([]);
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
  afterEach(() => vi.unstubAllGlobals());
  const answer = (response: Partial<Response>) =>
    vi.stubGlobal('fetch', () => Promise.resolve(response as Response));
  async function show(page?: string) {
    answer({ ok: true, json: () => Promise.resolve(compiled) });
    return mounted(page);
  }
  async function mounted(page?: string) {
    const shown = mountPart(HandbookPage, {
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
    await flushPromises();
    return shown;
  }

  it('shows what a place is for and its questions', async () => {
    const shown = await show('table');
    expect(shown.get('h1').text()).toBe('Handbook: Table');
    expect(shown.findAll('h2').map((one) => one.text())).toContain('How do I correct a wrong weight?');
    expect(shown.get('[aria-current=page]').text()).toBe('Table');
  });

  it('opens the first page for an unknown one', async () => {
    expect((await show('nowhere')).get('h1').text()).toBe('Handbook: First day');
  });

  it('searches all pages while something is typed', async () => {
    const shown = await show('rail');
    await shown.get('input').setValue('deposit');
    expect(shown.findAll('h2').map((one) => one.text())).toEqual(['How do I take a deposit?']);
    await shown.get('input').setValue('zebra');
    expect(shown.findAll('h2')).toEqual([]);
    expect(shown.text()).toContain('Nothing about “zebra”.');
  });

  it('is unfolded in a dialog, with the questions of the page below it', async () => {
    answer({ ok: true, json: () => Promise.resolve(compiled) });
    const router = createRouter({
      history: createMemoryHistory(),
      routes: [{ path: '/grinder', meta: { place: 'grinder' }, component: { template: '' } }],
    });
    await router.push('/grinder');
    const unfold = async () => {
      const help = mountPart(HelpHere, { global: { plugins: [router] } });
      expect(help.text()).toBe('Help for this page');
      await help.trigger('toggle');
      await flushPromises();
      return help;
    };
    const asked = (await unfold()).findAll('strong').map((one) => one.text());
    expect(asked).toEqual(handbook.grinder.questions.map(({ ask }) => ask));
    answer({ ok: false });
    expect((await unfold()).text()).toContain('The handbook is missing.');
  });

  it('says that it is missing', async () => {
    answer({ ok: false });
    expect((await mounted()).text()).toContain('The handbook is missing.');
  });
});
