/** A window on a served book that goes from place to place and hears what the browser complains of. */
import type { Browser, Page } from 'playwright-core';
import type { Place, Subjects } from './places.ts';

export interface Look {
  page: Page;
  /** Errors of the console and refusals of the security policy since they were last taken. */
  complaints: string[];
  /** Goes to a place, does what is done there and waits until it shows what it should. */
  goTo(place: Place, subjects: Subjects): Promise<void>;
}

/** A shop's old screen, where nothing else is asked for. */
export const OLD_SCREEN = { width: 1366, height: 768 };

/** Opens a window of the program at `address`. */
export async function openLook(
  browser: Browser,
  address: string,
  as: Parameters<Browser['newContext']>[0] = {},
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
  await page.goto(address);
  const heading = page.locator('h1').first(); // by its tag: an open sheet hides the rest from roles
  await heading.waitFor();

  return {
    page,
    complaints,
    async goTo({ at, act, sees }, subjects) {
      await page.keyboard.press('Escape'); // a sheet of the frame stays when the place changes
      // By way of another place: a page that is gone to again would keep what was typed and opened.
      for (const hash of ['#/about', `#${at(subjects)}`]) {
        await page.evaluate((next) => (location.hash = next), hash);
        await page.waitForURL((url) => url.hash === hash);
        await heading.waitFor();
      }
      await act?.(page);
      await page.getByText(sees).filter({ visible: true }).first().waitFor();
    },
  };
}

/** All that is written, once two looks in a row find the same. */
export async function stillText(page: Page): Promise<string> {
  let before = '';
  for (let i = 0; i < 50; i++) {
    const now = await page.locator('body').innerText();
    if (now === before) return now;
    before = now;
    await page.waitForTimeout(80);
  }
  throw new Error('The page never stood still.');
}
