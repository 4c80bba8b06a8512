/** One place of the demo in the window of a small laptop: 1366 × 690, what is left of 768 beside the bars of the system. */
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { openBrowser } from '../browser.ts';
import { openLook } from '../look-at.ts';
import { PLACES, subjectsOf } from '../places.ts';
import { sharedDemo } from '../served.ts';

const WINDOW = { width: 1366, height: 690 };

export interface FirstScreen {
  page: Page;
  /** Expects that this element is whole in the window, without scrolling. */
  inside(element: Locator): Promise<void>;
  close(): Promise<void>;
}

/** Opens the place of this name in the demo, scrolled to its top, with its cautions folded. */
export async function openFirstScreen(name: string): Promise<FirstScreen> {
  const place = PLACES.find((one) => one.name === name);
  if (!place) throw new Error(`No place is called ${name}`);
  const [demo, browser] = await Promise.all([sharedDemo(), openBrowser()]);
  const subjects = await subjectsOf(await demo.newAddress());
  const { page, goTo } = await openLook(browser, await demo.newAddress(), { viewport: WINDOW });
  await goTo(place, subjects);
  for (const open of await page.locator('[data-cautions] details[open] > summary').all()) await open.click();
  await page.evaluate(() => scrollTo(0, 0));
  return {
    page,
    async inside(element) {
      const box = await element.boundingBox();
      const said = `${await element.innerText()} ${JSON.stringify(box)}`;
      expect(box, said).not.toBeNull();
      if (!box) return;
      expect(Math.min(box.x, box.y), said).toBeGreaterThanOrEqual(0);
      expect(box.y + box.height, said).toBeLessThanOrEqual(WINDOW.height);
      expect(box.x + box.width, said).toBeLessThanOrEqual(WINDOW.width);
    },
    async close() {
      await browser.close();
      await demo.end('SIGINT');
    },
  };
}
