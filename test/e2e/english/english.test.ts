/**
 * No word of English is in the window, on what it prints, or in what it exports while another language is chosen: but what the shop typed, and what is
 * marked as English, such as the words of a source.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { foreignWords, wordsOf } from '../../words/catalogue-words.ts';
import { openBrowser } from '../browser.ts';
import { deskLine } from '../desk-line.ts';
import { BETWEEN, openLook, stillText } from '../look-at.ts';
import { PLACES, subjectsOf, type Place, type Subjects } from '../places.ts';
import { serve } from '../served.ts';
import { exportedTexts } from './exported.ts';
import { sayIn } from './said.ts';
import { spokenPage } from './spoken-page.ts';
import { textsOf, watchCanvases } from './texts-of.ts';
import { typedTexts } from './typed-texts.ts';

/** Shops whose papers are in the language of their window. */
const LOCALES = { 'es-MX': 'es-US', 'fr-CA': 'fr-CA' } as const;

let browser: Browser;
beforeAll(async () => void (browser = await openBrowser()));
afterAll(() => browser?.close());

it.each(['es-MX', 'fr-CA'] as const)(
  'in %s',
  async (language) => {
    const demo = await serve('--demo');
    const call = await deskLine(await demo.newAddress());
    await call('shop.saveSettings', { changes: { locale: LOCALES[language] } });
    const subjects = await subjectsOf(await demo.newAddress());
    const typed = await typedTexts(call);
    const look = await openLook(
      browser,
      (await demo.newAddress()).replace('/#', `/?language=${language}#`),
      {},
      watchCanvases,
    );
    const spoken = spokenPage(look.page, sayIn(language));
    const foreign = foreignWords(language);
    const seen = new Set<string>();
    const found: string[] = [];
    const read = (place: string, texts: readonly string[]): void => {
      for (const text of texts) {
        if (seen.has(text)) continue;
        seen.add(text);
        const english = wordsOf(text.replaceAll(typed, ' · ')).filter((word) => foreign.has(word));
        if (english.length > 0) found.push(`${place}: ${english.join(' ')} (${text.slice(0, 200)})`);
      }
    };
    for (const place of PLACES) {
      await goTo(spoken, place, subjects);
      read(place.name, await textsOf(look.page));
    }
    const windowTexts = seen.size;
    read('exported', await exportedTexts(call, language));
    expect(found).toEqual([]);
    expect(windowTexts).toBeGreaterThan(3000);
    expect(seen.size - windowTexts).toBeGreaterThan(1000);
    expect(look.complaints).toEqual([]);
    await look.page.context().close();
    await demo.end('SIGINT');
  },
  // A page takes a busy computer seconds.
  300_000,
);

/** Opens a place as `openLook` does, by English names; what it then shows is not named, since its words are what is looked for. */
async function goTo(page: Page, { at, act }: Place, subjects: Subjects): Promise<void> {
  await page.keyboard.press('Escape');
  for (const hash of [BETWEEN, `#${at(subjects)}`]) {
    await page.evaluate((next) => (location.hash = next), hash);
    await page.waitForURL((url) => url.hash === hash);
  }
  await act?.(page);
  await stillText(page);
}

it('knows a word of English, and what somebody typed', () => {
  const spanish = foreignWords('es-MX');
  expect(wordsOf('Venado (elk), 26-0001: Save weight').filter((word) => spanish.has(word))).toEqual([
    'save',
    'weight',
  ]);
  expect(spanish.size).toBeGreaterThan(1500);
  expect(sayIn('es-MX')('Cancel', true)).toEqual(/^(?:Cancelar)$/u);
});
