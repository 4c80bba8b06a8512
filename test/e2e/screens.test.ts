/** Every place in a real browser, light and dark: readable by everyone, whole on a small screen, without holes. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe from 'axe-core';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { deskLine } from './desk-line.ts';
import { serve, type Served } from './served.ts';

/** A shop's old screen, and the smallest on which the tool is offered. */
const WIDTHS = [1366, 1024] as const;
const HEIGHT = 768;
const THEMES = ['light', 'dark'] as const;
type Theme = (typeof THEMES)[number];
/** What a person would take for a broken program. */
const HOLES = /\bNaN\b|\bundefined\b|\[object|\bnull\b/;

const folder = mkdtempSync(join(tmpdir(), 'gambrel-screens-'));
let demo: Served;
let fresh: Served;
let browser: Browser;
let suspect: string;
let plain: string;
let batch: number;
const complaints: string[] = [];
const contexts = new Map<string, { context: BrowserContext; page: Page }>();

async function openWindow(theme: Theme, address: string): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: WIDTHS[0], height: HEIGHT },
    colorScheme: theme,
    locale: 'en-US',
    timezoneId: 'America/Denver',
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.addInitScript(() =>
    addEventListener('securitypolicyviolation', (event) =>
      console.error(`The policy forbids ${event.violatedDirective}: ${event.blockedURI}`),
    ),
  );
  await page.goto(address);
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  await page.evaluate(axe.source);
  contexts.set(theme + address, { context, page });
  return page;
}

/** The first animal still in the shop whose own weights the desk doubts, and the first whose weights agree. */
async function lookUp(): Promise<void> {
  const desk = await deskLine(demo.address);
  const records = await desk('books.records', {});
  const pages = await Promise.all(records.map(({ ticket }) => desk('animals.open', { ticket })));
  const doubted = pages.find(
    ({ balance, detail }) => balance.suspects.length > 0 && (detail === 'detailed' || balance.overGrams > 0),
  );
  const agreed = pages.find(({ balance, stage }) => balance.suspects.length === 0 && stage === 'hanging');
  const { open } = await desk('grinder.look', {});
  const [pooled] = [...open].sort((a, b) => b.tickets.length - a.tickets.length);
  if (!doubted || !agreed || !pooled)
    throw new Error('The demo has no doubted animal, no agreed one, or no open batch.');
  [suspect, plain, batch] = [doubted.ticket, agreed.ticket, pooled.id];
}

beforeAll(async () => {
  [demo, fresh, browser] = await Promise.all([
    serve('--demo'),
    serve('--book', join(folder, 'fresh.gambrel')),
    openBrowser(),
  ]);
  await lookUp();
});
afterAll(async () => {
  await browser?.close();
  await Promise.all([demo?.end('SIGINT'), fresh?.end('SIGINT')]);
  rmSync(folder, { recursive: true, force: true });
});

async function planOne(page: Page): Promise<void> {
  await page
    .getByRole('checkbox', { name: /^Grind \d/ })
    .first()
    .check();
  await page.getByRole('radio', { name: 'Pork back fat' }).check({ force: true });
  await page.getByLabel('Target fat').fill('12.5');
  await page.getByText(/9 in 10 such batches come out between/).waitFor();
}

async function askQuote(page: Page): Promise<void> {
  await page.getByLabel('Species', { exact: true }).selectOption('Elk');
  await page.getByLabel('Weight', { exact: true }).fill('340');
  await page.getByRole('heading', { name: 'Take-home meat' }).waitFor();
}

/** The book of a season has hundreds of rows that are all alike: a few stand for all. */
async function fewRecords(page: Page): Promise<void> {
  await tab('Record book')(page);
  await page.locator('main').getByLabel('Find', { exact: true }).fill('26-000');
  await page.getByText(/^9 entries/).waitFor();
}

const tab = (name: string) => (page: Page) => page.getByRole('tab', { name }).click();

/** What is looked at: where it is, what is done there, and what must then be seen for it to be the right page. */
const places: { name: string; at: () => string; act?: (page: Page) => Promise<void>; sees: RegExp }[] = [
  { name: 'rail', at: () => '/rail', sees: /On the rail, longest hung first/ },
  { name: 'intake', at: () => '/intake', sees: /Returning hunters appear as you type/ },
  { name: 'table of a doubted animal', at: () => `/table/${suspect}`, sees: /This does not add up/ },
  { name: 'table of an agreed animal', at: () => `/table/${plain}`, sees: /Where every pound/ },
  { name: 'grinder with a plan', at: () => '/grinder', act: planOne, sees: /Start this batch/ },
  { name: 'batch', at: () => `/grinder/${batch}`, sees: /Fat as weighed in/ },
  { name: 'quote with an answer', at: () => '/quote', act: askQuote, sees: /To read out/ },
  { name: 'pick-up', at: () => '/pickup', sees: /Packed and ready/ },
  { name: 'season', at: () => '/season', sees: /What makes a difference/ },
  { name: 'season of one species', at: () => '/season?species=elk', sees: /What makes a difference, Elk/ },
  { name: 'where every pound went', at: () => '/season/pounds', sees: /Kinds of game side by side/ },
  { name: 'fat', at: () => '/season/fat', sees: /What the fat came from/ },
  { name: 'quotes kept', at: () => '/season/check', sees: /How often the quotes held/ },
  { name: 'compare', at: () => '/season/compare', sees: /Difference: / },
  { name: 'animals', at: () => '/season/animals?species=moose&order=bone', sees: /On the hook/ },
  { name: 'season report', at: () => '/season/report', sees: /Sources and how to read the pictures/ },
  { name: 'costs', at: () => '/season/costs', sees: /By kind of game/ },
  { name: 'record book', at: () => '/books', act: fewRecords, sees: /^9 entries/ },
  { name: 'record book on paper', at: () => '/books/paper?season=2026&text=26-000', sees: /9 entries/ },
  { name: 'a record being mended', at: () => `/table/${plain}?mend=1`, sees: /Why it is changed/ },
  { name: 'prices', at: () => '/books', act: tab('Prices'), sees: /in force since/ },
  { name: 'fat on hand', at: () => '/books', act: tab('Fat on hand'), sees: /Also what is used up/ },
  { name: 'hunters', at: () => '/books', act: tab('Hunters'), sees: /Find a hunter/ },
  { name: 'shop', at: () => '/shop', sees: /Who works here/ },
  { name: 'a cooler', at: () => '/cooler/1', sees: /Day by day/ },
  { name: 'cautions', at: () => '/cautions', sees: /Local rules and licensed practice come first/ },
  {
    name: 'key sheet',
    at: () => '/rail',
    act: (page) => page.getByRole('button', { name: 'Keys' }).click(),
    sees: /Find a ticket or a hunter/,
  },
];

interface Violation {
  id: string;
  impact: string;
  nodes: { target: string; html: string }[];
}

/** What an accessibility checker would hold against the page as it stands, from moderate up. */
async function violations(page: Page): Promise<Violation[]> {
  return page.evaluate(async () => {
    const checker = (window as unknown as { axe: typeof axe }).axe;
    const { violations: found } = await checker.run(document, {
      resultTypes: ['violations'],
      preload: false, // only asks for the style sheets again
    });
    return found
      .filter(({ impact }) => impact === 'moderate' || impact === 'serious' || impact === 'critical')
      .map(({ id, impact, nodes }) => ({
        id,
        impact: String(impact),
        nodes: nodes.slice(0, 3).map(({ target, html }) => ({ target: target.join(' '), html })),
      }));
  });
}

/** By how many pixels the page is wider than its window. */
async function overflowAt(page: Page, width: number): Promise<number> {
  await page.setViewportSize({ width, height: HEIGHT });
  return page.evaluate(
    () =>
      new Promise<number>((resolve) =>
        requestAnimationFrame(() =>
          requestAnimationFrame(() => {
            const { scrollWidth, clientWidth } = document.documentElement;
            resolve(scrollWidth - clientWidth);
          }),
        ),
      ),
  );
}

/** All that is written once two looks in a row find the same. */
async function stillText(page: Page): Promise<string> {
  let before = '';
  for (let i = 0; i < 50; i++) {
    const now = await page.locator('body').innerText();
    if (now === before) return now;
    before = now;
    await page.waitForTimeout(120);
  }
  throw new Error('The page never stood still.');
}

async function check(page: Page, sees: RegExp): Promise<void> {
  await page.getByText(sees).first().waitFor();
  expect(await stillText(page)).not.toMatch(HOLES);
  expect(await violations(page)).toEqual([]);
  for (const width of [...WIDTHS].reverse()) expect(await overflowAt(page, width), `at ${width} px`).toBe(0);
  expect(complaints.splice(0)).toEqual([]);
}

describe.each(THEMES)('in the %s theme', (theme) => {
  let page: Page;
  beforeAll(async () => {
    page = await openWindow(theme, demo.address);
    expect(await page.locator('html').getAttribute('data-theme')).toBe(theme);
  });

  it.each(places)('$name is whole', async ({ at, act, sees }) => {
    await page.evaluate((place) => (location.hash = place), `#${at()}`);
    await page.waitForURL((url) => url.hash === `#${at()}`);
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    await act?.(page);
    await check(page, sees);
    await page.keyboard.press('Escape');
  });

  it('the greeting of a fresh book is whole', async () => {
    const window = await openWindow(theme, fresh.address);
    await check(window, /Start an empty book/);
  });
});
