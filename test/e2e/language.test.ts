/** A window speaks its own language, which is a script of its own that other windows do not fetch. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
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

/** Opens the cautions in a window, and gives the scripts that it fetched. */
async function cautionsIn(query: string): Promise<{ page: Page; scripts: string[] }> {
  const page = await (await browser.newContext()).newPage();
  const scripts: string[] = [];
  page.on('request', (request) => scripts.push(new URL(request.url()).pathname));
  await page.goto((await demo.newAddress()).replace('/#', `/${query}#`));
  // The first page is there: until then the way to it could overtake the next.
  await page.locator('main h1').first().waitFor();
  await page.evaluate(() => (location.hash = '/cautions'));
  return { page, scripts: scripts.filter((path) => /\/qps-.*\.js$/.test(path)) };
}

it('speaks the language of its address, longer and in brackets, from a script of its own', async () => {
  const { page, scripts } = await cautionsIn('?language=qps');
  await expect.poll(() => page.locator('main h1').innerText()).toMatch(/^\[Çáá.*\]$/u);
  expect(await page.locator('html').getAttribute('lang')).toBe('qps');
  // Dates and numbers stay the shop's.
  await page
    .getByText(/Nov \d+, 2026\)\]$/u)
    .first()
    .waitFor();
  expect(scripts).toHaveLength(1);
  await page.context().close();
});

it('speaks American English without one, and fetches no other language', async () => {
  const { page, scripts } = await cautionsIn('');
  await expect.poll(() => page.locator('main h1').innerText()).toBe('Cautions');
  expect(scripts).toEqual([]);
  await page.context().close();
});

it.each(['en-US', 'es-MX', 'fr-CA'])('names the places side by side on every screen in %s', async (language) => {
  const page = await (await browser.newContext()).newPage();
  await page.goto((await demo.newAddress()).replace('/#', `/?language=${language}#`));
  await expect.poll(() => page.locator('html').getAttribute('lang')).toBe(language);
  await page.locator('main h1').first().waitFor();
  for (const [width, height] of [[810, 1080], [1024, 768], [1366, 768]] as const) {
    await page.setViewportSize({ width, height });
    const wider = await page.locator('header .bar nav a').evaluateAll((links) =>
      links
        .filter((link) => {
          const name = document.createRange();
          name.selectNodeContents(link);
          return name.getBoundingClientRect().width > link.clientWidth;
        })
        .map((link) => link.textContent),
    );
    expect(wider, `names over their neighbors at ${width} px`).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), `${width} px`).toBe(0);
  }
  await page.context().close();
}); // prettier-ignore
