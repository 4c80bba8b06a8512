/** The built window in a real browser over the loopback carrier: the key, reloads, a new address, a server that ends. */
import { spawn, type ChildProcess } from 'node:child_process';
import { join, resolve } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { openBrowser } from '../e2e/browser.ts';

const SERVE = join(resolve(import.meta.dirname, '../..'), 'out/main/serve.js');

let browser: Browser;
let server: ChildProcess;
let address: string;
let context: BrowserContext;
let page: Page;
let complaints: string[];

beforeAll(async () => {
  browser = await openBrowser();
  server = spawn(process.execPath, [SERVE, '--demo', '--port', '0', '--no-open']);
  address = await new Promise<string>((found, failed) => {
    let out = '';
    server.stdout?.on('data', (text: Buffer) => {
      out += text.toString();
      const printed = /open at (\S+) /.exec(out)?.[1];
      if (printed) found(printed);
    });
    server.on('close', () => failed(new Error(`The server ended: ${out}`)));
  });
}, 120_000); // the demo's seasons are entered one by one
afterAll(async () => {
  server.kill('SIGINT');
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

/** The window is drawn and has heard from the desk: the demo's banner is there. */
const drawn = () => page.getByRole('button', { name: 'Leave the demo' }).waitFor({ timeout: 15_000 });
const callsFrom = (from: Page) => {
  const calls: string[] = [];
  from.on('request', (request) => calls.push(new URL(request.url()).pathname));
  return calls;
};

it('takes the key out of the address at once, keeps its pass over a reload, and breaks no rule of the policy', async () => {
  await page.goto(address);
  await drawn();
  expect(page.url()).not.toContain('key');
  const calls = callsFrom(page);
  await page.reload();
  await drawn();
  expect(calls).toContain('/call/shop.look');
  expect(calls).not.toContain('/session');
  expect(complaints).toEqual([]);
});

it('says that it is not let in without the key, and opens when the address is pasted into the same tab', async () => {
  await page.goto(new URL(address).origin);
  await page.getByText('This window is no longer let in').waitFor({ timeout: 15_000 });
  await page.goto(address); // the same page to the browser: only the fragment changes
  await drawn();
  expect(page.url()).not.toContain('key');
});

it('hears of a change made in another window', async () => {
  const other = await context.newPage();
  await page.goto(address);
  await drawn();
  await other.goto(address);
  // The key is exchanged for a pass before anything can be called.
  await other.waitForFunction(() => sessionStorage.getItem('gambrel.pass') !== null);
  const heard = callsFrom(page);
  await other.evaluate(async () => {
    const post = (name: string, input: unknown, opening = '') =>
      fetch(`/call/${name}`, {
        method: 'POST',
        headers: {
          'content-type': 'application/json',
          authorization: `Bearer ${sessionStorage.getItem('gambrel.pass')}`,
          'gambrel-opening': opening,
        },
        body: JSON.stringify(input),
      });
    const look = (await (await post('shop.look', {})).json()) as { value: { opening: string } };
    const response = await post('shop.change', { changes: { shopName: 'Ridge' } }, look.value.opening);
    if (!response.ok || !((await response.json()) as { ok: boolean }).ok) throw new Error('not changed');
  });
  await expect.poll(() => heard).toContain('/call/shop.look');
});

it('runs no script from outside or written into the page', async () => {
  await page.goto(address);
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
