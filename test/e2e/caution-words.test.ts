/** Once read, cautions rest in one line, so that they do not crowd out the page, and none is missing. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CAUTIONS, SPECIES } from '../../src/desk/supplied/resources.ts';
import { cautionsAt } from '../../src/ui/cautions/at-place.ts';
import type { CautionPlace } from '../../src/bridge/contract.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

/** Maximum share of cautions among all visible words of a page. */
const MAX_SHARE = 0.2;
/** The list of a place, and every single caution elsewhere on the page. */
const WARNS = '[role="group"][aria-label="Cautions"], .sentence.caution';

let shop: ShopWindow;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop?.close());

/** Counts visible words; folded or hidden text does not count. */
async function words(page: Page): Promise<{ all: number; warning: number }> {
  return page.evaluate((selector) => {
    const count = (text: string): number => text.split(/\s+/).filter((word) => /\w/.test(word)).length;
    const main = document.querySelector<HTMLElement>('main');
    const warning = [...(main?.querySelectorAll<HTMLElement>(selector) ?? [])];
    const outer = warning.filter((one) => !warning.some((other) => other !== one && other.contains(one)));
    return {
      all: count(main?.innerText ?? ''),
      warning: outer.reduce((sum, one) => sum + count(one.innerText), 0),
    };
  }, WARNS);
}

async function goTo(page: Page, hash: string): Promise<void> {
  await page.evaluate((to) => (location.hash = to), hash);
  await page.getByRole('group', { name: 'Cautions' }).waitFor();
}

function titlesAt(place: CautionPlace, code: string): string[] {
  const cautions = SPECIES.find((one) => one.code === code)?.cautions ?? [];
  const all = CAUTIONS.map((one) => ({ ...one, shown: [...one.shown] }));
  return cautionsAt(all, place, [{ cautions }]).map(({ short, title }) => short ?? title);
}

/** All are shown in full at first, and by their titles once folded. */
async function expectAll(page: Page, titles: readonly string[]): Promise<void> {
  const list = page.getByRole('group', { name: 'Cautions' });
  const hide = list.getByText('Hide', { exact: true });
  const missing = async (): Promise<string[]> => {
    // A list that has just changed may open by itself.
    if (await hide.isVisible()) await hide.click();
    const seen = await Promise.all(
      titles.map((title) => list.locator('summary').getByText(title, { exact: true }).isVisible()),
    );
    return titles.filter((_, i) => !seen[i]);
  };
  await expect.poll(missing).toEqual([]);
}

describe('cautions', () => {
  it('are complete and under a fifth of the words at the Table with a held deer', async () => {
    const { page } = shop;
    const { ticket } = await deerAtDesk(shop, 'Ann Alder', {}, { species: 'white-tail', sample: 'L-704' });
    await goTo(page, `#/table/${ticket}`);
    await expectAll(page, titlesAt('table', 'white-tail'));
    const { all, warning } = await words(page);
    expect(warning / all, `${warning} of ${all} words`).toBeLessThan(MAX_SHARE);
  });

  it('are complete and under a fifth of the words at Intake for every species', async () => {
    const { page } = shop;
    await goTo(page, '#/intake');
    for (const { code, name } of SPECIES) {
      await page.getByRole('radio', { name, exact: true }).check({ force: true });
      await expectAll(page, titlesAt('intake', code));
      const { all, warning } = await words(page);
      expect(warning / all, `${name}: ${warning} of ${all} words`).toBeLessThan(MAX_SHARE);
    }
    expect(shop.complaints).toEqual([]);
  });
});
