import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';

/** Shop, the longest page, has some 130 stops. */
const MAX_TABS = 180;
/** Interval between two reads of a page; it is stable once four give the same. */
const STILL_MS = 120;

/**
 * A keyboard user: everything is reached with Tab, arrows and the keys that the window shows.
 * @param paceMs pause after each key, to type as a person does
 */
export function keysOf(page: Page, paceMs = 0) {
  const keyboard = {
    async press(key: string): Promise<void> {
      await page.keyboard.press(key);
      if (paceMs > 0) await page.waitForTimeout(paceMs);
    },
    type: (text: string): Promise<void> => page.keyboard.type(text, { delay: paceMs }),
  };

  /** Presses Tab until `target` has the focus. */
  async function tabTo(target: Locator): Promise<void> {
    // Located once, and again only if it was rendered again, because searching a long page by name takes longer than
    // a key press.
    let element = await target.first().elementHandle();
    for (let i = 0; i < MAX_TABS; i++) {
      const where = await element?.evaluate(
        (one) => one.isConnected && (one === document.activeElement ? 'on it' : 'there'),
      );
      if (where === 'on it') return;
      if (where === 'there') await keyboard.press('Tab');
      else element = await target.first().elementHandle();
    }
    throw new Error(`Tab never reached ${target}`);
  }
  return {
    tabTo,
    press: (key: string) => keyboard.press(key),
    type: (text: string) => keyboard.type(text),
    /** Tabs to a text field by its label and replaces its value. */
    async fill(label: string, text: string): Promise<void> {
      const named = { name: label, exact: true };
      await tabTo(
        page
          .getByRole('textbox', named)
          .or(page.getByRole('combobox', named))
          .or(page.getByRole('spinbutton', named)),
      );
      await keyboard.press('ControlOrMeta+a');
      await keyboard.type(text);
    },
    /** Selects an option: in a group of choices by the key shown on it, in a drop-down by typing its name. */
    async choose(label: string, option: string): Promise<void> {
      const group = page.getByRole('group', { name: label, exact: true });
      const list = page.getByRole('combobox', { name: label, exact: true });
      await group.or(list).first().waitFor();
      if ((await group.count()) === 0) {
        await tabTo(list);
        await keyboard.type(option);
        expect(
          await list.evaluate((select: HTMLSelectElement) => select.selectedOptions[0]?.label),
          label,
        ).toBe(option);
        return;
      }
      const radios = group.getByRole('radio');
      for (let i = 0; i < MAX_TABS; i++) {
        if (await radios.evaluateAll((all) => all.some((one) => one === document.activeElement))) break;
        await keyboard.press('Tab');
      }
      const wanted = group.getByRole('radio', { name: option, exact: true });
      const key = await wanted.getAttribute('aria-keyshortcuts');
      // The browser's driver has no key for a letter with an accent.
      if (key && /^[ -~]+$/.test(key)) await keyboard.press(key);
      else for (let i = 0; i < 20 && !(await wanted.isChecked()); i++) await keyboard.press('ArrowRight');
      expect(await wanted.isChecked(), `${label}: ${option}`).toBe(true);
    },
    async pressOn(name: string | RegExp): Promise<void> {
      await tabTo(page.getByRole('button', { name, exact: true }));
      await keyboard.press('Enter');
    },
    /** Opens a page by its number in the navigation. */
    async goTo(place: string, number: number): Promise<void> {
      await keyboard.press(`Alt+${number}`);
      await page.waitForURL((url) => url.hash === `#/${place}`);
    },
  };
}

export type Keys = ReturnType<typeof keysOf>;

/** The visible text of a page's main part, once it is stable. */
export async function readingOf(page: Page): Promise<string> {
  let before = '';
  let same = 0;
  for (let i = 0; i < 120; i++) {
    const now = (await page.locator('main').innerText()).replace(/\s+/g, ' ');
    same = now === before && now !== '' ? same + 1 : 0;
    if (same === 3) return now;
    before = now;
    await page.waitForTimeout(STILL_MS);
  }
  throw new Error(`The page never stood still: ${before.slice(0, 200)}`);
}
