/** The Table of one animal in the first screen of an old laptop, below title bar and above task bar: nothing scrolls. */
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from '../browser.ts';
import { openLook, type Look } from '../look-at.ts';
import { PLACES, subjectsOf, type Subjects } from '../places.ts';
import { sharedDemo, type Served } from '../served.ts';

const SCREEN = { width: 1366, height: 690 };
const PARTS = ['Whole cuts', 'Trim', 'Fat saved', 'Sinew', 'Bone', 'Damage'];
/** Of the page, between its margins. */
const FULL_WIDTH = 1300;

let demo: Served;
let browser: Browser;
let look: Look;
let page: Page;
let subjects: Subjects;

beforeAll(async () => {
  [demo, browser] = await Promise.all([sharedDemo(), openBrowser()]);
  subjects = await subjectsOf(await demo.newAddress());
  look = await openLook(browser, await demo.newAddress());
  ({ page } = look);
  await page.setViewportSize(SCREEN);
});
afterAll(async () => {
  await browser?.close();
  await demo?.end('SIGINT');
});

/** Opens an animal, with its cautions read and folded. */
async function open(name: string): Promise<void> {
  await look.goTo(
    PLACES.find((place) => place.name === name)!,
    subjects,
  );
  const cautions = page.locator('[data-cautions] details[open] > summary');
  if ((await cautions.count()) > 0) await cautions.first().click();
  await page.evaluate(() => scrollTo(0, 0));
}

/** Its box is within the window, without scrolling. */
async function expectWhole(what: string, element: Locator): Promise<void> {
  const box = await element.boundingBox();
  expect(box, what).not.toBeNull();
  expect(box!.y, `top of ${what}`).toBeGreaterThanOrEqual(0);
  expect(Math.round(box!.y + box!.height), `bottom of ${what}`).toBeLessThanOrEqual(SCREEN.height);
}
const entry = () => page.locator('main input[inputmode="decimal"]').first();
const ladder = () => page.locator('[data-sight="ladder"]');
const bar = () => page.getByRole('img', { name: /^Weight ladder of/ });

it('arrives at its top with open cautions in sight, and at the entry and its parts with the first digit', async () => {
  await look.goTo(
    PLACES.find((place) => place.name === 'table of an agreed animal')!,
    subjects,
  );
  await entry().waitFor();
  await expect.poll(() => entry().evaluate((one) => one === document.activeElement)).toBe(true);
  await page.waitForTimeout(300);
  expect(await page.locator('[data-cautions] details[open]').count()).toBe(1);
  expect(await page.evaluate(() => scrollY)).toBe(0);
  await page.keyboard.press('1');
  const last = page
    .locator('label')
    .filter({ has: page.getByRole('radio', { name: 'Damage', exact: true }) });
  await expect
    .poll(async () => {
      const { y, height } = (await last.boundingBox())!;
      return y + height;
    })
    .toBeLessThanOrEqual(SCREEN.height);
  await expectWhole('the entry', entry());
  await page.keyboard.press('Backspace');
});

it('shows entry, parts, ladder and cut sheet, with a hold and an animal past its limit', async () => {
  await open('table of an agreed animal');
  await expectWhole('the ladder', bar());
  expect((await bar().boundingBox())?.width).toBeGreaterThan(FULL_WIDTH);
  await expectWhole('the entry', entry());
  expect((await entry().boundingBox())?.height).toBeGreaterThanOrEqual(90);
  for (const name of PARTS) {
    const part = page.locator('label').filter({ has: page.getByRole('radio', { name, exact: true }) });
    await expectWhole(name, part);
    expect((await part.boundingBox())?.height, name).toBeGreaterThanOrEqual(64);
  }
  const sheet = page.locator('section').filter({ has: page.getByRole('heading', { name: 'Cut sheet' }) });
  await expectWhole('the cut sheet', sheet);
});

it('asks about a doubt in place of the parts, with entry and ladder in sight', async () => {
  await open('table of a doubted animal');
  const question = page.locator('[data-sight="doubt"]');
  await expectWhole('the question', question);
  await expectWhole('the entry', entry());
  await expectWhole('the ladder', ladder());
  const [asked, typed] = [await question.boundingBox(), await entry().boundingBox()];
  expect(asked!.y).toBeGreaterThan(typed!.y);
  expect(asked!.x).toBeLessThan(SCREEN.width / 3);
  expect(await page.getByRole('radio', { name: 'Trim', exact: true }).count()).toBe(0);
  await question.getByRole('button', { name: 'Later' }).click();
  await expectWhole(
    'a part',
    page.locator('label').filter({ has: page.getByRole('radio', { name: 'Bone' }) }),
  );
  expect(await question.count()).toBe(1);
});

it('shows the weights of a piece of the ladder that is pressed, by key too', async () => {
  await open('table of a doubted animal');
  const piece = page.getByRole('button', { name: /^Weights of whole cuts, \d/ });
  const weights = page.getByRole('table', { name: 'Weights of whole cuts' });
  await piece.focus();
  await page.keyboard.press('Enter');
  await weights.waitFor();
  expect(await weights.getByRole('row').count()).toBe(3);
  await page.keyboard.press('Tab');
  await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('Enter');
  await weights.waitFor({ state: 'detached' });
});

it('shows all animals on the table as large targets, and the next one', async () => {
  await open('tables');
  expect(await page.locator('main a.tile').count()).toBeGreaterThan(1);
  for (const tile of await page.locator('main a.tile').all()) {
    await expectWhole('a tile', tile);
    expect((await tile.boundingBox())?.height).toBeGreaterThanOrEqual(120);
  }
  await expectWhole('the next step', page.getByRole('button', { name: /to the table$/i }));
});

it('has one filled button', async () => {
  for (const place of [
    'tables',
    'table of an agreed animal',
    'table of a doubted animal',
    'table of a held animal',
  ]) {
    await open(place);
    expect(await page.locator('main button.main').count(), place).toBe(1);
  }
  expect(look.complaints).toEqual([]);
});

it('has its columns on one edge from top to bottom', async () => {
  await open('table of a doubted animal');
  const left = async (of: string): Promise<number> =>
    Math.round((await page.locator(of).last().boundingBox())!.x);
  expect(await left('.more > *')).toBe(await left('.work > .hand + *'));
});

it('names all cautions of the animal in one line', async () => {
  await open('table of a doubted animal');
  const line = page.locator('[data-cautions] summary').first();
  const said = await line.innerText();
  for (const words of [
    '6 cautions',
    'Wasting disease: gloves',
    'Pusher, never a hand',
    'Clean, sanitize, dry',
  ])
    expect(said).toContain(words);
  expect((await line.boundingBox())?.height).toBeLessThanOrEqual(46);
});
