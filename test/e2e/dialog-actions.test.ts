/** A long sheet on a small laptop scrolls behind its actions, which stay in sight from its top to its end. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { openLook, type Look } from './look-at.ts';
import { PLACES, subjectsOf, type Subjects } from './places.ts';
import { serve, type Served } from './served.ts';

const SMALL = { width: 1366, height: 690 };
/** Not a word explained beside it. */
const SHEET = '[role="dialog"][data-state="open"]';
const SHEETS = PLACES.filter(({ sheet }) => sheet !== undefined);

let demo: Served;
let browser: Browser;
let look: Look;
let subjects: Subjects;

beforeAll(async () => {
  [demo, browser] = await Promise.all([serve('--demo'), openBrowser()]);
  subjects = await subjectsOf(await demo.newAddress());
  look = await openLook(browser, await demo.newAddress(), { viewport: SMALL });
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await demo?.end('SIGINT');
});

/** How far, in px, the last button ends above the lower edge of the sheet, and whether nothing lies over it. */
const actionsOf = (page: Page): Promise<{ above: number; shown: boolean }> =>
  page.locator(SHEET).evaluate((sheet) => {
    const last = [...sheet.querySelectorAll('button')].at(-1);
    if (!last) throw new Error('The sheet has no button.');
    const [button, whole] = [last.getBoundingClientRect(), sheet.getBoundingClientRect()];
    const onTop = document.elementFromPoint(button.left + button.width / 2, button.top + button.height / 2);
    return { above: whole.bottom - button.bottom, shown: onTop === last || last.contains(onTop) };
  });

it.each(SHEETS)('$name', { timeout: 60_000 }, async (place) => {
  const { page } = look;
  await look.goTo(place, subjects);
  const sheet = page.locator(SHEET);
  await sheet.waitFor();
  await sheet.evaluate((all) => all.scrollTo(0, 0));
  const atTop = await actionsOf(page);
  await sheet.evaluate((all) => all.scrollTo(0, all.scrollHeight));
  const atEnd = await actionsOf(page);
  for (const { above, shown } of [atTop, atEnd]) {
    expect(shown).toBe(true);
    expect(above).toBeGreaterThanOrEqual(8);
    expect(above).toBeLessThanOrEqual(40);
  }
});
