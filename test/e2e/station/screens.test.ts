/**
 * Every screen of the places, on a tablet upright and lying, light and dark: nothing that axe finds, nothing too small for a
 * glove, nothing wider than the tablet. `STATION_PICTURES=FOLDER` keeps pictures.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Place } from '../../../src/trade/place.ts';
import { bringAxe, rulesIn, violations } from '../axe-check.ts';
import { deerAtDesk } from '../shop-window.ts';
import { openStationShop, pairStation, type StationShop } from './station-shop.ts';

/** What a gloved hand presses, px. */
const SMALLEST = 56;
const SHAPES = { upright: { width: 810, height: 1080 }, lying: { width: 1080, height: 810 } };
const FOLDER = process.env.STATION_PICTURES;

const NO_FILTER = {
  rate: null, species: null, brought: null, products: [], kinds: [], recipes: [], least: null, fatSource: null, taxRate: 0,
}; // prettier-ignore

let shop: StationShop;
let device: BrowserContext;
let page: Page;
let stationId: number;
beforeAll(async () => {
  shop = await openStationShop();
  await shop.call('coolers.save', { name: 'Walk-in', places: 20, by: 'MK' });
  await shop.call('shop.saveSettings', {
    changes: { dropOffTerms: 'Meat is kept for 5 days after we call. Then storage is charged.' },
  });
  await shop.call('prices.save', {
    name: 'Fall',
    validFrom: '2020-01-01',
    lines: [
      { code: 'cut', label: 'Cutting, skinned', basis: 'animal', unit: null, amountMinor: 9500, ...NO_FILTER },
      { code: 'jerky', label: 'Jerky', basis: 'product', unit: 'lb', amountMinor: 450, ...NO_FILTER, products: ['Jerky'] },
    ],
    by: 'MK',
  }); // prettier-ignore
  await deerAtDesk(shop, 'Hanging Hana');
  await deerAtDesk(shop, 'Cutting Cora', { bone: '9', trim: '20' });
  const ready = await deerAtDesk(shop, 'Ready Rita');
  await shop.call('table.weigh', {
    animalId: ready.id, stage: 'packed', part: 'package', product: 'Ground', count: 30, typed: '32', place: 'Shelf A',
  }); // prettier-ignore
  await shop.call('animals.setStage', {
    id: ready.id,
    stage: 'ready',
    answer: 'a test',
    confirmed: true,
    by: 'MK',
  });
  await shop.call('bills.create', { animalId: ready.id, confirmed: true, by: 'MK' });
  const cutting = { kind: 'payment', method: 'cash', typed: '95', by: 'MK' } as const;
  await shop.call('bills.pay', { animalId: ready.id, ...cutting });
  await shop.call('loads.open', { oven: 'Big', madeIds: [], by: 'MK' });
  device = await shop.device('tablet', { hasTouch: true });
  page = device.pages()[0] ?? (await device.newPage());
  page.setDefaultTimeout(15_000);
  stationId = await pairStation(shop, page, 'Tablet', 'table');
  await page.getByRole('dialog').getByRole('button', { name: 'MK' }).tap();
});
afterAll(() => shop.end());

const tap = (name: string | RegExp) => page.getByRole('button', { name }).first().tap();
async function openTicket(running: string): Promise<void> {
  for (const digit of running)
    await page
      .getByRole('group', { name: 'Number keys' })
      .getByRole('button', { name: digit, exact: true })
      .tap();
  await tap('Open');
}
/** Reads the cautions, which stand open above the first animal of a kind. */
async function readCautions(): Promise<void> {
  const hide = page.locator('[data-cautions]').getByRole('button', { name: 'Hide' });
  await hide.waitFor();
  await look('cautions');
  await hide.tap();
}

async function checkIn(): Promise<void> {
  await page.getByRole('combobox').first().fill('Counter Carl');
  for (const label of ['Mule deer', 'Buck', 'Skinned'])
    await page.locator('label', { hasText: label }).first().tap();
  for (const digit of '96')
    await page
      .getByRole('group', { name: 'Number keys' })
      .getByRole('button', { name: digit, exact: true })
      .tap();
  await tap('Check in');
}

const pickLabel = (label: string) => page.locator('main label', { hasText: label }).first().tap();
async function typeName(): Promise<void> {
  await page.getByLabel('Name', { exact: true }).fill('Hunter Hedda');
  await tap('Next');
}
async function pickAnimal(): Promise<void> {
  for (const label of ['Mule deer', 'Doe', 'Yesterday']) await pickLabel(label);
  await page.getByLabel('Tag or permit number').fill('T-4711');
  await tap('Next');
}
async function signTerms(): Promise<void> {
  const { x = 0, y = 0 } = (await page.getByRole('img', { name: 'Your signature' }).boundingBox()) ?? {};
  await page.mouse.move(x + 60, y + 60);
  await page.mouse.down();
  for (let i = 1; i < 20; i += 1) await page.mouse.move(x + 60 + i * 15, y + 60 + (i % 3) * 20);
  await page.mouse.up();
}

interface Screen {
  place: Place;
  name: string;
  go?: () => Promise<unknown>;
  sees: string | RegExp;
}
const SCREENS: Screen[] = [
  { place: 'table', name: 'home', sees: 'On the table now' },
  { place: 'table', name: 'animal', go: () => openTicket('2').then(readCautions), sees: 'Cut sheet' },
  { place: 'table', name: 'packages', go: () => page.locator('label', { hasText: 'Packages' }).first().tap(), sees: 'Freezer spot' },
  { place: 'table', name: 'count', go: () => tap(/^Packages:/), sees: 'Weigh' },
  { place: 'table', name: 'void', go: () => tap(/^Void /), sees: 'Weighed twice' },
  { place: 'cooler', name: 'home', sees: 'Walk-in' },
  { place: 'cooler', name: 'reading', go: () => tap('Enter temperature'), sees: 'Temperature of Walk-in now' },
  { place: 'cooler', name: 'animal', go: () => tap('Cancel').then(() => openTicket('1')).then(readCautions), sees: 'Hang in a cooler' },
  { place: 'grinder', name: 'home', sees: 'Trim waiting' },
  { place: 'grinder', name: 'plan', go: () => page.locator('.waiting label').first().tap(), sees: 'Start this batch' },
  { place: 'grinder', name: 'batch', go: () => tap('Start this batch').then(readCautions), sees: 'Fat as weighed in' },
  { place: 'grinder', name: 'pack', go: () => page.locator('label', { hasText: 'Pack' }).first().tap(), sees: 'Container' },
  { place: 'grinder', name: 'pass', go: () => page.locator('label', { hasText: 'Grind' }).first().tap(), sees: 'Plate' },
  { place: 'smokehouse', name: 'home', sees: 'In the smokehouse now' },
  { place: 'smokehouse', name: 'load', go: () => tap(/^Big/), sees: 'What it must reach' },
  { place: 'counter', name: 'intake', go: readCautions, sees: 'Weight received' },
  { place: 'counter', name: 'checked in', go: checkIn, sees: 'Write this ticket on the tag' },
  { place: 'pickup', name: 'home', sees: 'Hunter or ticket' },
  { place: 'pickup', name: 'sheet', go: () => tap(/Ready Rita/), sees: 'Handed to' },
  { place: 'pickup', name: 'handed', go: () => page.locator('.go').tap(), sees: /was handed to/ },
  { place: 'hunter', name: 'language', sees: 'Español (México)' },
  { place: 'hunter', name: 'you', go: () => tap('English (United States)'), sees: 'Hunting license' },
  { place: 'hunter', name: 'animal', go: typeName, sees: 'What did you bring?' },
  { place: 'hunter', name: 'cuts', go: pickAnimal, sees: 'The shop’s standard cuts' },
  { place: 'hunter', name: 'terms', go: () => pickLabel('The shop’s standard cuts').then(() => tap('Next')), sees: 'Sign here with your finger' },
  { place: 'hunter', name: 'signed', go: signTerms, sees: 'Clear signature' },
  { place: 'hunter', name: 'thanks', go: () => tap('Send to the counter'), sees: 'Thank you, Hunter Hedda' },
  { place: 'counter', name: 'queue', sees: 'Waiting at check-in' },
  { place: 'counter', name: 'from a hunter', go: () => tap(/^Hunter Hedda/), sees: 'Tag T-4711' },
  { place: 'counter', name: 'set aside', go: () => tap('Set aside'), sees: 'Hunter left' },
]; // prettier-ignore

let at: Place = 'table';
let shown = '';

/** Holds the screen as it is against gloves and the tablet's width in each shape and theme, and against axe once in each theme. */
async function look(name: string): Promise<void> {
  await bringAxe(page);
  for (const [shape, size] of Object.entries(SHAPES))
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.setViewportSize(size);
      await page.emulateMedia({ colorScheme });
      if (FOLDER) {
        mkdirSync(FOLDER, { recursive: true });
        await page.screenshot({ path: join(FOLDER, `${at}-${name}-${shape}-${colorScheme}.png`) });
      }
      const about = `${at} ${name} ${shape} ${colorScheme}`;
      if (shape === 'upright')
        expect(await violations(page, rulesIn(colorScheme)), about).toEqual([]);
      expect(await page.evaluate(tooSmall, SMALLEST), about).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), about).toBeLessThanOrEqual(0);
    } // prettier-ignore
}

/** Whatever is pressed in the screen of the place and is smaller than it should be. */
function tooSmall(smallest: number): string[] {
  const pressed = [...document.querySelectorAll('main button, main summary, main label:has(input[type=radio], input[type=checkbox])')];
  return pressed.flatMap((one) => {
    const { width, height } = one.getBoundingClientRect();
    const fits = width === 0 || (width >= smallest - 0.5 && height >= smallest - 0.5);
    return fits ? [] : [`${one.textContent?.trim()} ${Math.round(width)}×${Math.round(height)}`];
  });
} // prettier-ignore

it.each(SCREENS)(
  '$place: $name',
  async ({ place, name, go, sees }) => {
    if (place !== at) {
      await page.keyboard.press('Escape');
      await shop.call('stations.rename', {
        id: stationId,
        name: 'Tablet',
        place,
        language: 'en-US',
        by: 'MK',
      });
      at = place;
    }
    await go?.();
    await page.getByText(sees).filter({ visible: true }).first().waitFor();
    shown = name;
    await look(shown);
  },
  60_000,
);
