/** No word of English is on a station's page in another language, but what the shop typed. */
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Place } from '../../../src/trade/place.ts';
import { foreignWords, wordsOf } from '../../words/catalogue-words.ts';
import { stillText } from '../look-at.ts';
import { deerAtDesk } from '../shop-window.ts';
import { openStationShop, pairStation, type StationShop } from '../station/station-shop.ts';
import { sayIn } from './said.ts';
import { spokenPage } from './spoken-page.ts';
import { textsOf } from './texts-of.ts';

/** What the shop typed, and a language that is named in itself. */
const TYPED = /Oak Ridge|Mara Kline|Tablet|Walk-in|(Hanging|Cutting|Ready) \p{L}+|Big|English \(.+?\)/gu;
const NAME = 'Tablet';

let shop: StationShop;
let device: BrowserContext;
let page: Page;
let stationId: number;
beforeAll(async () => {
  shop = await openStationShop();
  await shop.call('coolers.save', { name: 'Walk-in', places: 20, by: 'MK' });
  await deerAtDesk(shop, 'Hanging Hana');
  await deerAtDesk(shop, 'Cutting Cora', { bone: '9', trim: '20' });
  const { id } = await deerAtDesk(shop, 'Ready Rita');
  await shop.call('animals.setStage', { id, stage: 'ready', answer: '', confirmed: true, by: 'MK' });
  await shop.call('loads.open', { oven: 'Big', madeIds: [], by: 'MK' });
  device = await shop.device('tablet', { hasTouch: true });
  page = device.pages()[0] ?? (await device.newPage());
  page.setDefaultTimeout(15_000);
  stationId = await pairStation(shop, page, NAME, 'table');
  await page.getByRole('dialog').getByRole('button', { name: 'MK' }).tap();
});
afterAll(() => shop.end());

/** What is looked at of a place besides its first screen: by English names, and by those that the shop typed. */
const STEPS: Partial<Record<Place, (page: Page) => Promise<void>>> = {
  table: (at) => openTicket(at, '2'),
  cooler: (at) => openTicket(at, '1'),
  grinder: (at) => at.locator('.waiting label').first().tap(),
  smokehouse: () => page.getByRole('button', { name: /^Big/ }).first().tap(),
  pickup: () =>
    page
      .getByRole('button', { name: /Ready Rita/ })
      .first()
      .tap(),
};

async function openTicket(at: Page, running: string): Promise<void> {
  const keys = at.getByRole('group', { name: 'Number keys' });
  await keys.locator(`button:text-is("${running}")`).tap();
  await at.getByRole('button', { name: 'Open' }).first().tap();
}

it.each(['es-MX', 'fr-CA'] as const)(
  'in %s',
  async (language) => {
    const foreign = foreignWords(language);
    const spoken = spokenPage(page, sayIn(language));
    const found: string[] = [];
    const seen = new Set<string>();
    const look = async (place: Place): Promise<void> => {
      await stillText(page);
      for (const text of await textsOf(page)) {
        seen.add(text);
        const english = wordsOf(text.replaceAll(TYPED, '')).filter((word) => foreign.has(word));
        if (english.length > 0) found.push(`${place}: ${english.join(' ')} (${text.slice(0, 200)})`);
      }
    };
    for (const place of [
      'table',
      'cooler',
      'grinder',
      'smokehouse',
      'counter',
      'pickup',
      'hunter',
    ] as const) {
      await page.keyboard.press('Escape');
      await shop.call('stations.rename', { id: stationId, name: NAME, place, language, by: 'MK' });
      await page.locator(`html[lang="${language}"]`).waitFor();
      await look(place);
      await STEPS[place]?.(spoken);
      await look(place);
    }
    expect(found).toEqual([]);
    expect(seen.size).toBeGreaterThan(150);
  },
  200_000,
);
