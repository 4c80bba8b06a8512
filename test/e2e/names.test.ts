/** A window in another language names what the program brings in that language, on the pages that list it. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { allNames } from '../../src/desk/names/names.ts';
import type { Language } from '../../src/words/languages.ts';
import { openBrowser } from './browser.ts';
import { stillText } from './look-at.ts';
import { sharedDemo, type Served } from './served.ts';

let demo: Served;
let browser: Browser;
beforeAll(async () => {
  demo = await sharedDemo();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await demo?.end('SIGINT');
});

/** The lists, and a name that stands on each in es-MX. */
const LISTS = [
  ['/books?tab=species', 'Wapití (elk)'],
  ['/books?tab=products', 'Salchicha para desayuno'],
  ['/books?tab=ways', 'Todo molido'],
  ['/smokehouse?tab=recipes', 'Palitos de carne'],
  ['/cautions', 'Triquinas'],
] as const;

async function windowIn(language: Language): Promise<Page> {
  const page = await (await browser.newContext({ viewport: { width: 1366, height: 768 } })).newPage();
  await page.goto((await demo.newAddress()).replace('/#', `/?language=${language}#`));
  await page.locator('main h1').first().waitFor();
  return page;
}

/** English names that this language says otherwise; single words that are its own as well are left out. */
function foreign(language: Language): string[] {
  const said = allNames(language);
  const ours = new Set(said.values());
  return [...allNames('en-US')]
    .filter(([key, name]) => said.get(key) !== name && !ours.has(name) && !/^\p{Ll}/u.test(name))
    .map(([, name]) => name);
}

it('in Spanish, no list shows an English name', async () => {
  const names = foreign('es-MX');
  const page = await windowIn('es-MX');
  for (const [at, known] of LISTS) {
    await page.evaluate((hash) => (location.hash = hash), at);
    await page.getByText(known).filter({ visible: true }).first().waitFor();
    const lines = (await stillText(page)).split('\n').map((line) => line.trim());
    expect([at, names.filter((name) => lines.includes(name))]).toEqual([at, []]);
  }
  await page.context().close();
}, 120_000);
