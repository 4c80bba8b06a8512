/** Half-typed forms survive a reload: types into every form of every page, reloads and compares. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { openLook, type Look } from './look-at.ts';
import { PLACES, subjectsOf, type Subjects } from './places.ts';
import { serve, type Served } from './served.ts';

/** Maximum number of fields typed per page. */
const FIELDS = 4;
/** Minimum number of pages with fields, so that the test cannot miss forms. */
const MIN_FORMS = 30;
/** Pages whose fields only filter, which are not drafts. */
const FILTERS: ReadonlySet<string> = new Set([
  'season', 'season of one species', 'where every pound went', 'flow', 'money', 'fat', 'quotes kept', 'compare', 'animals',
  'season report', 'record book', 'a word explained', 'a cooler',
]); // prettier-ignore
const TYPEABLE =
  'input:is([type=text], [type=tel], [type=email], [type=number], [type=search]):not([role=combobox], [readonly], [data-filter]), textarea:not([readonly])';

let demo: Served;
let browser: Browser;
let look: Look;
let page: Page;
let subjects: Subjects;
let forms = 0;

beforeAll(async () => {
  [demo, browser] = await Promise.all([serve('--demo'), openBrowser()]);
  subjects = await subjectsOf(await demo.newAddress());
  look = await openLook(browser, await demo.newAddress());
  ({ page } = look);
});
afterAll(async () => {
  await browser?.close();
  await demo?.end('SIGINT');
});

/** The editable fields in the open dialog or on the page. */
const fields = () => {
  const within = page.locator('[role=dialog]').or(page.locator('main')).last();
  return within.locator(TYPEABLE).filter({ visible: true });
};
const values = () =>
  fields().evaluateAll(
    (all, most) => all.slice(0, most).map((one) => (one as HTMLInputElement).value),
    FIELDS,
  );

it.each(PLACES.filter(({ name }) => !FILTERS.has(name)))('$name', async (place) => {
  await look.goTo(place, subjects);
  const count = Math.min(FIELDS, await fields().count());
  if (count === 0) return;
  forms++;
  for (let i = 0; i < count; i++) {
    const field = fields().nth(i);
    await field.focus();
    await page.keyboard.press('ControlOrMeta+a');
    await page.keyboard.type(`${i + 3}`);
    await page.keyboard.press('Tab');
  }
  const typed = await values();
  expect(typed.some((value) => value !== '')).toBe(true);
  await page.reload();
  await page.locator('h1').first().waitFor();
  if (place.sheet) await place.act?.(page);
  await page.getByText(place.sees).filter({ visible: true }).first().waitFor();
  await expect.poll(values, { timeout: 5000 }).toEqual(typed);
});

it('visited many forms without console errors', () => {
  expect(forms).toBeGreaterThanOrEqual(MIN_FORMS);
  expect(look.complaints).toEqual([]);
});
