/** A window on a served book that goes from page to page and collects the browser's errors. */
import type { Browser, Page } from 'playwright-core';
import type { Place, Subjects } from './places.ts';

export interface Look {
  page: Page;
  /** Console errors and security policy violations since the last read. */
  complaints: string[];
  /** Opens a page, performs its steps and waits until it shows what it should. */
  goTo(place: Place, subjects: Subjects): Promise<void>;
}

/** The default screen size: an old laptop. */
export const OLD_SCREEN = { width: 1366, height: 768 };

/** A page that asks the desk nothing and has few elements. */
export const BETWEEN = '#/card';

/** Opens a window of the program at `address`. `prepare` is called before. */
export async function openLook(
  browser: Browser,
  address: string,
  as: Parameters<Browser['newContext']>[0] = {},
  prepare: (page: Page) => Promise<void> = () => Promise.resolve(),
): Promise<Look> {
  const context = await browser.newContext({
    viewport: OLD_SCREEN,
    locale: 'en-US',
    timezoneId: 'America/Denver',
    reducedMotion: 'reduce',
    ...as,
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.setDefaultTimeout(15_000);
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.addInitScript(() =>
    addEventListener('securitypolicyviolation', (event) =>
      console.error(`The policy forbids ${event.violatedDirective}: ${event.blockedURI}`),
    ),
  );
  await prepare(page);
  await page.goto(address);
  const heading = page.locator('h1').first(); // By its tag, because an open dialog hides the rest from roles.
  await heading.waitFor();

  return {
    page,
    complaints,
    async goTo({ at, act, sees }, subjects) {
      await page.keyboard.press('Escape'); // A dialog of the frame stays open when the page changes.
      // By way of another page, a small one, because reopening the same one would keep typed text and open dialogs.
      for (const hash of [BETWEEN, `#${at(subjects)}`]) {
        await page.evaluate((next) => (location.hash = next), hash);
        await page.waitForURL((url) => url.hash === hash);
        await heading.waitFor();
      }
      await act?.(page);
      await page.getByText(sees).filter({ visible: true }).first().waitFor();
    },
  };
}

/** The visible text, once two reads in a row are equal. */
export async function stillText(page: Page): Promise<string> {
  let before = '';
  for (let i = 0; i < 80; i++) {
    const now = await page.locator('body').innerText();
    if (now === before) return now;
    before = now;
    await page.waitForTimeout(50);
  }
  throw new Error('The page never stood still.');
}
