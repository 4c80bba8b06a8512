/** The built window in a real browser over the loopback carrier: the code, reloads, further tabs, a new address. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { openBrowser } from '../e2e/browser.ts';
import { serve, type Served } from '../e2e/served.ts';

let browser: Browser;
let server: Served;
let context: BrowserContext;
let page: Page;
let complaints: string[];

beforeAll(async () => {
  browser = await openBrowser();
  server = await serve('--demo');
}, 120_000); // The demo's seasons are entered one by one.
afterAll(async () => {
  await server.end('SIGINT');
  await browser.close();
});
beforeEach(async () => {
  context = await browser.newContext();
  page = await context.newPage();
  complaints = [];
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
});
afterEach(() => context.close());

/** Waits until the window has rendered and received an answer: the demo's chip is visible. */
const drawn = () => page.getByRole('button', { name: /^Demo/ }).waitFor({ timeout: 15_000 });
const callsFrom = (from: Page) => {
  const calls: string[] = [];
  from.on('request', (request) => calls.push(new URL(request.url()).pathname));
  return calls;
};

it('removes the code from the address at once, keeps its session over a reload, and violates no policy', async () => {
  await page.goto(await server.newAddress());
  await drawn();
  expect(page.url()).not.toContain('code');
  const calls = callsFrom(page);
  await page.reload();
  await drawn();
  expect(calls).toContain('/call/shop.get');
  expect(calls).not.toContain('/session');
  expect(complaints).toEqual([]);
});

it('leaves no credential behind: no cookie, nothing stored beyond the tab, a used address', async () => {
  const address = await server.newAddress();
  await page.goto(address);
  await drawn();
  expect(await context.cookies()).toEqual([]);
  expect(await page.evaluate(async () => [localStorage.length, await indexedDB.databases()])).toEqual([
    0,
    [],
  ]);
  const stranger = await (await browser.newContext()).newPage();
  await stranger.goto(address);
  await stranger.getByText('This window has no access').waitFor({ timeout: 15_000 });
  await stranger.context().close();
});

it('opens further tabs while one is open, and none when all were closed', async () => {
  await page.goto(await server.newAddress());
  await drawn();
  const { origin } = new URL(page.url());
  const second = await context.newPage();
  await second.goto(origin);
  await second.getByRole('button', { name: /^Demo/ }).waitFor({ timeout: 15_000 });
  await page.close();
  await second.close();
  const third = await context.newPage();
  await third.goto(origin);
  await third.getByText('This window has no access').waitFor({ timeout: 15_000 });
});

it('reports a missing session without a code, and opens when an address is pasted into the same tab', async () => {
  const address = await server.newAddress();
  await page.goto(new URL(address).origin);
  await page.getByText('This window has no access').waitFor({ timeout: 15_000 });
  await page.goto(address); // The browser stays on the same page, because only the fragment changes.
  await drawn();
  expect(page.url()).not.toContain('code');
});

it('receives a change made in another window', async () => {
  const other = await context.newPage();
  await page.goto(await server.newAddress());
  await drawn();
  await other.goto(await server.newAddress());
  // The code is exchanged for a session before any call is possible.
  await other.waitForFunction(() => sessionStorage.getItem('gambrel.session') !== null);
  const heard = callsFrom(page);
  await other.evaluate(async () => {
    const post = (name: string, input: unknown, opening = '') =>
      fetch(`/call/${name}`, {
        method: 'POST',
        headers: {
          'content-type': 'application/json',
          authorization: `Bearer ${sessionStorage.getItem('gambrel.session')}`,
          'gambrel-opening': opening,
        },
        body: JSON.stringify(input),
      });
    const look = (await (await post('shop.get', {})).json()) as { value: { opening: string } };
    const response = await post('shop.saveSettings', { changes: { shopName: 'Ridge' } }, look.value.opening);
    if (!response.ok || !((await response.json()) as { ok: boolean }).ok) throw new Error('not changed');
  });
  await expect.poll(() => heard).toContain('/call/shop.get');
});

it('runs no external or inline script', async () => {
  await page.goto(await server.newAddress());
  await drawn();
  const ran = await page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = 'window.ran = true';
    document.head.append(script);
    return 'ran' in window;
  });
  expect(ran).toBe(false);
  await expect(page.evaluate(() => fetch('http://127.0.0.1:9/'))).rejects.toThrow();
  expect(complaints.filter((text) => text.includes('Content Security Policy')).length).toBeGreaterThanOrEqual(
    2,
  );
});
