/** The whole job, from hook to quote, in a real browser and by keyboard alone, with the arithmetic shown. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { keysOf, readingOf, type Keys } from './keys.ts';
import { serve, type Served } from './served.ts';

const folder = mkdtempSync(join(tmpdir(), 'gambrel-e2e-'));
const book = join(folder, 'shop.gambrel');
let served: Served;
let browser: Browser;
let page: Page;
let keys: Keys;
const complaints: string[] = [];

/** Percent as displayed. */
const percent = (share: number): string => `${(share * 100).toFixed(1)}%`;
/** USDA National Nutrient Database: moose 17172, caribou 17162, pork back fat 10004; own fat by beef separable fat 13019. */
const FAT = { moose: 0.0074, caribou: 0.0336, backFat: 0.8869, own: 0.7089 };
/** Pearson square, to the scale step of 0.05 lb. */
const toAdd = (lean: number, leanFat: number, fat: number, target: number): number =>
  Math.round((lean * (target - leanFat)) / (fat - target) / 0.05) * 0.05;

/** Tickets contain the season, which begins in July. */
function seasonOf(date = new Date()): string {
  return String((date.getMonth() >= 6 ? date.getFullYear() : date.getFullYear() - 1) % 100).padStart(2, '0');
}
const MOOSE = `${seasonOf()}-0001`;
const CARIBOU = `${seasonOf()}-0002`;

async function open(): Promise<void> {
  const context = await browser.newContext({
    viewport: { width: 1366, height: 768 },
    locale: 'en-US',
    timezoneId: 'America/Denver',
  });
  page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  keys = keysOf(page);
  await page.goto(await served.newAddress());
}

beforeAll(async () => {
  served = await serve('--book', book);
  browser = await openBrowser();
  await open();
});
// The screen at the time of a failure is more useful than the error message.
beforeEach(({ onTestFailed, task }) => {
  onTestFailed(async () => {
    const picture = join(tmpdir(), `gambrel-${task.name.slice(0, 40).replace(/\W+/g, '-')}.png`);
    await page.screenshot({ path: picture });
    console.error(`${page.url()} looked like ${picture}; the window said: ${complaints.join(' | ')}`);
  });
});
afterAll(async () => {
  await browser?.close();
  await served?.end('SIGINT');
  rmSync(folder, { recursive: true, force: true });
});

const row = (name: RegExp) => page.getByRole('row', { name });
const toast = (text: RegExp) => page.getByText(text).first().waitFor();

/** One weight at the Table: the letter of the part, the number, Enter. */
async function weigh(letter: string, typed: string): Promise<void> {
  await keys.press(letter);
  await keys.type(typed);
  await keys.press('Enter');
}
async function weighed(part: RegExp): Promise<string> {
  const parts = page.getByRole('table', { name: 'Parts of this animal' });
  return (await parts.getByRole('row', { name: part }).getByRole('cell').nth(1).innerText()).trim();
}

/** Quotes a moose of 500 lb hanging and reads take-home and price. */
async function askForQuote(): Promise<{
  takeHome: string;
  range: string;
  hangingFee: string;
  skinning: string;
  groundLb: number;
  grinding: string;
  total: string;
  sentence: string;
}> {
  await keys.goTo('quote', 6);
  await keys.choose('Species', 'Moose');
  await keys.choose('Sex', 'Bull');
  await keys.choose('Age', 'Adult');
  await keys.choose('Comes in as', 'Hide on');
  await keys.choose('Weighed', 'Hanging');
  await keys.fill('Weight', '500');
  await page.getByRole('heading', { name: 'Take-home meat' }).waitFor();
  const picture = await page.getByRole('img', { name: /8 in 10 such animals/ }).getAttribute('aria-label');
  const [, takeHome = '', low = '', high = ''] =
    /Most likely (.+?); .* between (.+?) and (.+?)\./.exec(picture ?? '') ?? [];
  const cell = async (name: RegExp) => (await row(name).first().getByRole('cell').nth(1).innerText()).trim();
  return {
    takeHome,
    range: `${low} to ${high}`,
    hangingFee: await cell(/by hanging weight/),
    skinning: await cell(/Skinning/),
    groundLb: Number.parseFloat(await cell(/^Ground /)),
    grinding: await cell(/^Grinding/),
    total: await cell(/^Total/),
    sentence: await page.getByRole('blockquote').innerText(),
  };
}

let quoteBefore: Awaited<ReturnType<typeof askForQuote>>;
let quoteAfter: typeof quoteBefore;

describe('the whole job, by keyboard', () => {
  it('opens an empty book with a name and a unit', async () => {
    await keys.pressOn('Start a new book');
    await keys.fill('Name of the shop', 'Cold Creek Locker');
    await keys.press('Enter');
    await page.getByText('The rail is empty').waitFor();
  });

  it('quotes a moose from published figures alone', async () => {
    quoteBefore = await askForQuote();
    // Example book: skinning $30.00; 500 lb at $1.10.
    expect(quoteBefore.skinning).toBe('$30.00');
    expect(quoteBefore.hangingFee).toBe('$550.00');
    // Grinding at $0.45 a pound, displayed to a tenth of a pound; the lines add up to the cent.
    const cents = (money: string): number => Math.round(Number(money.replace(/[$,]/g, '')) * 100);
    expect(Math.abs(cents(quoteBefore.grinding) - quoteBefore.groundLb * 45)).toBeLessThanOrEqual(
      45 * 0.05 + 0.5,
    );
    expect(cents(quoteBefore.total)).toBe(3_000 + 55_000 + cents(quoteBefore.grinding));
    await keys.fill('Hunter', 'Mats Lindgren');
    await keys.pressOn('Save this quote');
    await page
      .getByText(/Q\d\d-0001/)
      .first()
      .waitFor();
  });

  it('receives a whole moose from a new hunter', async () => {
    await keys.goTo('intake', 2);
    await keys.fill('Name or phone number', 'Mats Lindgren');
    await keys.fill('Phone', '307-555-0119');
    await keys.choose('Species', 'Moose');
    await keys.choose('Sex', 'Bull');
    await keys.choose('Age', 'Adult');
    await keys.choose('Came in as', 'Hide on');
    await keys.fill('Weight received', 'heavy');
    await keys.press('Control+Enter');
    await page.getByText(/heavy/).first().waitFor();
    expect(await page.getByLabel('Weight received').inputValue()).toBe('heavy');
    expect(await page.getByRole('combobox', { name: 'Name or phone number' }).inputValue()).toBe(
      'Mats Lindgren',
    );
    await keys.fill('Weight received', '640 lb');
    await keys.fill('Hanging weight', '520');
    await keys.fill('Tag or permit', 'M-2041');
    await keys.press('Control+Enter');
    await page.getByText(MOOSE).first().waitFor();
    await keys.pressOn('Take to the table');
    await page.getByRole('heading', { level: 1, name: MOOSE }).waitFor();
    await page.getByRole('button', { name: 'Save', exact: true }).waitFor();
  });

  it('weighs its parts, asks about a mistyped bone weight, and names it in the balance', async () => {
    await weigh('c', '130.0');
    await toast(/Saved 130\.00 lb/);
    await weigh('t', '150 lb');
    await toast(/Saved 150\.00 lb/);
    await weigh('f', '6.2');
    await toast(/Saved 6\.20 lb/);
    await weigh('s', '45.0');
    await toast(/Saved 45\.00 lb/);
    await weigh('b', '600');
    await page
      .getByText(/more than the/)
      .first()
      .waitFor();
    expect(await page.getByRole('textbox', { name: 'Bone', exact: true }).inputValue()).toBe('600');
    await keys.fill('Bone', '216');
    await keys.press('Enter');
    await page.getByRole('button', { name: /Make it 126/ }).waitFor();
    await keys.press('y');
    // 130 + 150 + 6.2 + 45 + 216 = 547.2, which exceeds the hanging weight by 27.2 lb.
    await page.getByText(/27\.20 lb more than the animal/).waitFor();
    expect(await weighed(/^Bone /)).toBe('216.00 lb');
    await keys.pressOn(/Make it 126/);
    await row(/^Bone 126\.00 lb 24\.2%/).waitFor();
    // 126 / 520 = 24.2 %; 130 + 150 + 6.2 + 45 + 126 = 457.2; 520 − 457.2 = 62.8.
    expect(await weighed(/^Unaccounted for/)).toBe('62.80 lb');
    expect(await page.getByText('This does not add up.').count()).toBe(0);
  });

  it('voids a weight with a reason, and keeps it listed', async () => {
    await keys.tabTo(page.getByRole('textbox', { name: 'Bone', exact: true }));
    await weigh('d', '22.0');
    await toast(/Saved 22\.00 lb/);
    await weigh('d', '22');
    await page.getByText('Same weight again?').waitFor();
    await keys.press('y');
    await row(/^Damage cut away 44\.00 lb/).waitFor();
    await keys.pressOn('Void Damage 22');
    await keys.pressOn('Weighed twice');
    await row(/^Damage cut away 22\.00 lb 4\.2%/).waitFor();
    expect(await page.getByRole('table', { name: 'Weights of this animal' }).innerText()).toMatch(
      /weighed twice/i,
    );
    await keys.pressOn('Finished cutting');
    await page.getByRole('button', { name: 'Packed, ready for pickup' }).waitFor();
  });

  it('grinds its trim to 12.5% with pork back fat bought on the spot', async () => {
    await keys.goTo('grinder', 4);
    await keys.tabTo(page.getByRole('checkbox', { name: `Grind ${MOOSE}` }));
    await keys.press('Space');
    await keys.pressOn('Receive fat');
    await keys.choose('Kind of fat', 'Pork back fat');
    await keys.fill('Weight', '60');
    await keys.fill('Price', '1.20');
    await keys.pressOn('Receive fat');
    await toast(/Pork back fat is on hand/);
    await keys.choose('Fat', 'Pork back fat');
    await keys.fill('Target fat', '12.5');
    // 150 × (12.5 − 0.74) / (88.69 − 12.5) = 23.15 lb.
    const add = toAdd(150, FAT.moose, FAT.backFat, 0.125);
    expect(add.toFixed(2)).toBe('23.15');
    const plan = page.getByRole('list', { name: 'Weigh out' });
    await plan.getByText('23.15').waitFor();
    expect(await plan.innerText()).toMatch(/150\.00/);
    // 23.15 lb at $1.20.
    await page.getByText('Fat costs $27.78.').waitFor();
    await keys.press('Control+Enter');
    await page.getByRole('heading', { level: 1, name: /^G\d\d-001$/ }).waitFor();
  });

  it('weighs it in, shows the actual fat, packs and finishes', async () => {
    const entry = page.getByRole('button', { name: 'Save', exact: true }).first();
    await entry.waitFor();
    await weighIn('150.00');
    await weighIn('23.15');
    const fat = (150 * FAT.moose + 23.15 * FAT.backFat) / 173.15;
    expect(percent(fat)).toBe('12.5%');
    await page.getByText(percent(fat)).first().waitFor();
    await page
      .getByText(/165°F \(74°C\)/)
      .first()
      .waitFor();
    await keys.fill('Packages', '172');
    await keys.fill('Total weight of the 172 packages', '172.4');
    await keys.press('Enter');
    await page.getByText(/0\.75 lb not packed yet/).waitFor();
    await keys.pressOn('Finish this batch');
    await page.getByText('This batch is finished.').waitFor();
    await keys.goTo('table', 3);
    await keys.press('/');
    await keys.type(MOOSE);
    await keys.press('Enter');
    await page.getByRole('heading', { level: 1, name: MOOSE }).waitFor();
    await keys.pressOn('Packed, ready for pickup');
    // This shop has weighed no packages of whole cuts yet, so its 130 lb of them are not missing.
    await page.getByRole('button', { name: 'Back to packing' }).waitFor();
  });

  it('receives a single boned caribou shoulder from the same hunter, found by part of the phone number', async () => {
    await keys.goTo('intake', 2);
    await keys.fill('Name or phone number', '0119');
    await page.getByRole('option', { name: /Mats Lindgren/ }).waitFor();
    await keys.press('ArrowDown');
    await keys.press('Enter');
    await page.getByRole('button', { name: 'Someone else' }).waitFor();
    await keys.choose('Species', 'Caribou');
    await keys.choose('Sex', 'Cow');
    await keys.choose('Came in as', 'Boneless');
    await keys.fill('Pieces of Shoulder', '1');
    await keys.fill('Weight received', '14 lb 4 oz');
    await keys.press('Control+Enter');
    await page.getByText(CARIBOU).first().waitFor();
    await keys.pressOn('Take to the table');
    await page.getByRole('heading', { level: 1, name: CARIBOU }).waitFor();
    // The second ticket of a season is weighed quickly by default.
    await keys.pressOn('Switch to weighing every part');
    await page.getByRole('textbox', { name: 'Whole cuts', exact: true }).waitFor();
    await weigh('t', '12.60');
    await toast(/Saved 12\.60 lb/);
    await weigh('f', '0.60');
    await toast(/Saved 0\.60 lb/);
    await weigh('s', '0.80');
    await toast(/Saved 0\.80 lb/);
    // 14.25 − 12.60 − 0.60 − 0.80 = 0.25 lb of 14 lb 4 oz.
    await row(/^Unaccounted for 0\.25 lb 1\.8%/).waitFor();
    await keys.pressOn('Finished cutting');
    await page.getByRole('button', { name: 'Packed, ready for pickup' }).waitFor();
  });

  it('reports by how much its own fat misses 30%, and grinds it to 5%', async () => {
    await keys.goTo('grinder', 4);
    await keys.tabTo(page.getByRole('checkbox', { name: `Grind ${CARIBOU}` }));
    await keys.press('Space');
    await keys.choose('Fat', 'Own fat');
    await keys.fill('Target fat', '30');
    // 12.6 × (30 − 3.36) / (70.89 − 30) = 8.21 lb needed, 0.60 on hand, 7.61 missing; with all of it 6.4 %.
    const need = (12.6 * (0.3 - FAT.caribou)) / (FAT.own - 0.3);
    const nearest = (12.6 * FAT.caribou + 0.6 * FAT.own) / 13.2;
    const said = page.getByText(/ short\. With all of it/).first();
    await said.waitFor();
    expect(await said.innerText()).toContain(`${need.toFixed(2)} lb`);
    expect(await said.innerText()).toContain(percent(nearest));
    await keys.fill('Target fat', '5');
    // 12.6 × (5 − 3.36) / (70.89 − 5) = 0.314 lb, on this scale 0.30 lb.
    expect(toAdd(12.6, FAT.caribou, FAT.own, 0.05)).toBeCloseTo(0.3, 9);
    await page.getByRole('list', { name: 'Weigh out' }).getByText('0.30').waitFor();
    await keys.press('Control+Enter');
    await page.getByRole('heading', { level: 1, name: /^G\d\d-002$/ }).waitFor();
    await weighIn('12.60');
    await weighIn('0.30');
    const fat = (12.6 * FAT.caribou + 0.3 * FAT.own) / 12.9;
    expect(percent(fat)).toBe('4.9%');
    await page.getByText(percent(fat)).first().waitFor();
    await keys.fill('Packages', '12');
    await keys.fill('Total weight of the 12 packages', '12.75');
    await keys.press('Enter');
    await page.getByText(/0\.15 lb not packed yet/).waitFor();
    await keys.pressOn('Finish this batch');
    await page.getByText('This batch is finished.').waitFor();
  });

  it('quotes the next moose from its own data', async () => {
    quoteAfter = await askForQuote();
    // This moose gave (130 + 150 + 6.2) / 520 = 55.0 %, below the published 62 %: the next prediction is lower.
    expect(Number.parseFloat(quoteAfter.takeHome)).toBeLessThan(Number.parseFloat(quoteBefore.takeHome));
    expect(quoteAfter.range).not.toBe(quoteBefore.range);
    expect(quoteAfter.hangingFee).toBe('$550.00');
    // The sentence for the phone has whole dollars.
    const dollars = Math.round(Number(quoteAfter.total.replace(/[$,]/g, ''))).toLocaleString('en-US');
    expect(quoteAfter.sentence).toContain(`about $${dollars},`);
  });

  it('shows both animals in the Season', async () => {
    await keys.goTo('season', 8);
    await page
      .getByRole('heading', { name: /Take-home|Yield/ })
      .first()
      .waitFor();
    const season = await page.locator('main').innerText();
    expect(season).toMatch(/Moose/);
    expect(season).toMatch(/55(\.0)?%/);
  });

  it('shows every figure again after the program was killed', async () => {
    /** Each page with an element that appears only once it has loaded. */
    const places = {
      [`/table/${MOOSE}`]: 'weighed twice',
      [`/table/${CARIBOU}`]: '14 lb 4 oz',
      '/grinder/1': '23.15 lb',
      '/grinder/2': '0.30 lb',
      '/season': 'What makes a difference',
      '/season/check': 'What the next quotes are based on',
      '/books': CARIBOU,
      '/rail': 'Ready for pickup',
    };
    const look = async () => {
      const seen: Record<string, string> = {};
      for (const [place, sign] of Object.entries(places)) {
        await page.evaluate((hash) => (location.hash = hash), `#${place}`);
        await page.locator('main').getByText(sign).first().waitFor();
        // The cautions of a place stand open at its first visit of the day.
        const cautions = page.locator('[data-cautions] details[open] > summary');
        if ((await cautions.count()) > 0) await cautions.first().click();
        seen[place] = await readingOf(page);
      }
      return seen;
    };
    const before = await look();
    expect(before[`/table/${MOOSE}`]).toMatch(/126\.00 lb/);
    await served.end('SIGKILL');
    served = await serve('--book', book);
    await page.context().close();
    await open();
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    expect(await look()).toEqual(before);
    expect((await askForQuote()).takeHome).toBe(quoteAfter.takeHome);
  }, 60_000);

  it('raised no console errors', () => {
    // The killed program's connections break; there must be no other error.
    expect(complaints.filter((text) => !/ERR_CONNECTION|ERR_INCOMPLETE|network error/i.test(text))).toEqual(
      [],
    );
  });
});

/** Weighs one ingredient at the grinder; done once it is in the list. */
async function weighIn(typed: string): Promise<void> {
  const card = page
    .locator('section')
    .filter({ has: page.getByRole('heading', { name: 'Weigh in', exact: true }) });
  await keys.tabTo(card.getByRole('textbox').first());
  await keys.press('ControlOrMeta+a');
  await keys.type(typed);
  await keys.press('Enter');
  await page.getByRole('table', { name: 'What went in' }).getByText(typed).first().waitFor();
}
