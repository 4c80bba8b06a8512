/** The line in a real browser that trusts the shop's root, and the page that explains how to trust it. */
import { createHash, X509Certificate } from 'node:crypto';
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launch } from '../../e2e/browser.ts';
import { SECRET } from './echo-door.ts';
import { HOST, openLine, type OpenLine } from './open-line.ts';

let line: OpenLine;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  line = await openLine();
  // Trusts certificates of this signer and no other, without changing what the system trusts.
  const { cert } = await line.authority.leafFor({ host: HOST, addresses: [line.address] }, new Date());
  const signer = cert.slice(cert.lastIndexOf('-----BEGIN'));
  browser = await launch([`--ignore-certificate-errors-spki-list=${keyDigest(signer)}`, '--no-proxy-server']);
});
afterAll(async () => {
  await browser.close();
  line.close();
});

function keyDigest(certificate: string): string {
  const key = new X509Certificate(certificate).publicKey.export({ type: 'spki', format: 'der' });
  return createHash('sha256').update(key).digest('base64');
}

describe('the page that explains the trust, on plain HTTP', () => {
  it.each([
    [810, 'light'],
    [390, 'dark'],
  ] as const)('fits %i px in the %s theme, and axe finds nothing', async (width, colorScheme) => {
    page = await browser.newPage({ viewport: { width, height: 1080 }, colorScheme, locale: 'en-US' });
    const faults: string[] = [];
    page.on('console', (message) => faults.push(message.text()));
    await page.goto(`http://${line.host}/`);
    const looks = await page.evaluate(() => ({
      ground: getComputedStyle(document.body).backgroundColor,
      tooWide: document.documentElement.scrollWidth > innerWidth,
    }));
    expect(looks).toEqual({
      ground: colorScheme === 'light' ? 'rgb(245, 242, 234)' : 'rgb(15, 24, 25)',
      tooWide: false,
    });
    await page.evaluate(() =>
      document.querySelectorAll('details').forEach((details) => (details.open = true)),
    );
    await page.evaluate(axe.source);
    const found = await page.evaluate(async () => {
      const { violations } = await (window as unknown as { axe: typeof axe }).axe.run();
      return violations.map(({ id }) => id);
    });
    expect(found).toEqual([]);
    expect(faults.filter((text) => !text.includes('favicon'))).toEqual([]);
    await page.close();
  });

  it('leads to the window over TLS, in a secure context that may call the desk', async () => {
    page = await browser.newPage();
    await page.goto(`http://${line.host}/`);
    await page.getByRole('link', { name: 'Open Gambrel' }).click();
    await page.waitForURL(`${line.origin}/`);
    expect(await page.title()).toBe('Gambrel');
    expect(
      await page.evaluate(() => [isSecureContext, typeof crypto.subtle, 'serviceWorker' in navigator]),
    ).toEqual([true, 'object', true]);
    const answer = await page.evaluate(async (secret) => {
      const headers = { authorization: `Bearer ${secret}`, 'content-type': 'application/json' };
      const response = await fetch('/call/table.weigh', { method: 'POST', headers, body: '{"grams":5}' });
      return [response.status, await response.text()];
    }, SECRET);
    expect(answer).toEqual([200, '{"ok":true,"value":{"name":"table.weigh","input":{"grams":5}}}']);
    await page.close();
  });
});

it('a browser that does not trust the root shows its warning instead of the window', async () => {
  const stranger = await launch(['--no-proxy-server']);
  const other = await stranger.newPage();
  await expect(other.goto(`${line.origin}/`)).rejects.toThrow(/ERR_CERT_AUTHORITY_INVALID/);
  await stranger.close();
});
