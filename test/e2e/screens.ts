/**
 * Visits places in a real browser once. Each says that it waits for the desk, must be accessible in both themes; nothing may be clipped on a small
 * screen or at 200 %, every target must be wide enough for a glove, and the Tab key must lead to everything in reading order.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bringAxe, COLOR_RULES, violations } from './axe-check.ts';
import { openBrowser } from './browser.ts';
import { strayBlaze } from './looks/blaze-meanings.ts';
import { looksOf } from './looks/screen-looks.ts';
import { OLD_SCREEN, openLook, stillText, type Look } from './look-at.ts';
import { subjectsOf, type Place, type Subjects } from './places.ts';
import {
  brokenWholes,
  clippedPlaceholders,
  coveredShare,
  cutOff,
  edgesApart,
  headRows,
  lostColumns,
  smallTargets,
  splitWords,
  textsOverText,
} from './reach.ts';
import { slowDesk, type SlowDesk } from './slow-desk.ts';
import { serve, sharedDemo, type Served } from './served.ts';
import { tabWay } from './tab-way.ts';

/** The smallest supported screen. */
const SMALL = { width: 1024, height: 768 };
/** A tablet in portrait. */
const UPRIGHT = { width: 810, height: 1080 };
const WIDE = { width: 1920, height: 1080 };
/** The viewport of 1366 × 768 at 200 % zoom. */
const ENLARGED = { width: 683, height: 384 };

/** Places whose tables have one row for each animal on every screen: they are read while walking past. */
const ONE_LINE = [
  'rail',
  'tables',
  'table of an agreed animal',
  'grinder with a plan',
  'pickup',
  'open balances',
  'animals',
];

/** Texts that look like a malfunction. */
const HOLES = /\bNaN\b|\bundefined\b|\[object|\bnull\b/;

async function checkWhole({ page, complaints }: Look, rules?: readonly string[]): Promise<void> {
  expect(await stillText(page)).not.toMatch(HOLES);
  expect(await violations(page, rules)).toEqual([]);
  expect(complaints.splice(0)).toEqual([]);
}

const themeOf = ({ page }: Look) => page.locator('html').getAttribute('data-theme');

/**
 * Tests these places of the demo, and the greeting of a new book. A place is opened once; its tests build on each
 * other.
 */
export function placesAreWhole(places: readonly Place[]): void {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-screens-'));
  let demo: Served;
  let fresh: Served;
  let browser: Browser;
  let look: Look;
  let subjects: Subjects;
  let slow: SlowDesk;

  beforeAll(async () => {
    [demo, fresh, browser] = await Promise.all([
      sharedDemo(),
      serve('--book', join(folder, 'fresh.gambrel')),
      openBrowser(),
    ]);
    subjects = await subjectsOf(await demo.newAddress());
    look = await openLook(browser, await demo.newAddress());
    await bringAxe(look.page);
    slow = await slowDesk(look.page);
  });
  afterAll(async () => {
    await browser?.close();
    await Promise.all([demo?.end('SIGINT'), fresh?.end('SIGINT')]);
    rmSync(folder, { recursive: true, force: true });
  });

  describe.each(places)('$name', (place) => {
    it('says that it waits for a slow desk, and goes on', async () => {
      const { page } = look;
      await page.setViewportSize(OLD_SCREEN);
      await page.emulateMedia({ colorScheme: 'light' });
      slow.hold();
      const opened = look.goTo(place, subjects);
      // A place whose data is all there asks nothing, and a sheet opens on a place.
      if (!place.sheet) {
        await Promise.race([slow.asked(), opened]);
        if (slow.calls.length > 0) await slow.sign.waitFor();
      }
      slow.letGo();
      await opened;
      await slow.sign.waitFor({ state: 'detached' });
    });

    it('is whole in the light theme', async () => {
      await expect.poll(() => themeOf(look)).toBe('light');
      await checkWhole(look);
    });

    it('has one filled button, no text that wraps in one, and blaze only where something stops', async () => {
      const { filled, wrapped, blaze } = await looksOf(look.page);
      for (const screen of filled) expect(screen.length, `filled: ${screen.join(', ')}`).toBeLessThan(2);
      expect(wrapped, 'over several lines').toEqual([]);
      expect(strayBlaze(blaze), 'blaze').toEqual([]);
    });

    it('is whole in the dark theme', async () => {
      await look.page.emulateMedia({ colorScheme: 'dark' });
      await expect.poll(() => themeOf(look)).toBe('dark');
      await checkWhole(look, COLOR_RULES);
    });

    it('fits', async () => {
      const { page } = look;
      for (const size of [SMALL, UPRIGHT]) {
        await page.setViewportSize(size);
        await stillText(page);
        const on = `on ${size.width} × ${size.height}`;
        await expect.poll(() => cutOff(page), { message: on }).toEqual([]);
        expect(await lostColumns(page), `columns ${on}`).toEqual([]);
        expect(await clippedPlaceholders(page), `placeholders ${on}`).toEqual([]);
        expect(await splitWords(page), `broken words ${on}`).toEqual([]);
        expect((await looksOf(page)).wrapped, `buttons of several lines ${on}`).toEqual([]);
        expect(await brokenWholes(page), `over two lines ${on}`).toEqual([]);
        if (ONE_LINE.includes(place.name))
          expect(await page.locator('main .stacked').count(), `rows as blocks ${on}`).toBe(0);
        expect(await textsOverText(page), `texts over text ${on}`).toEqual([]);
        expect(await headRows(page), `rows of the head ${on}`).toBe(1);
        await expect.poll(() => smallTargets(page), { message: `for a finger ${on}` }).toEqual([]);
      }
      await page.setViewportSize(WIDE);
      await stillText(page);
      expect(await edgesApart(page), 'edges of head and page').toEqual([]);
      await page.setViewportSize(ENLARGED);
      await stillText(page);
      await expect.poll(() => cutOff(page), { message: 'enlarged' }).toEqual([]);
      expect(await coveredShare(page), 'covered by what does not scroll').toBeLessThan(0.5);
    });

    it('is usable by keyboard', async () => {
      const { page } = look;
      await page.setViewportSize(OLD_SCREEN);
      await stillText(page);
      expect(await tabWay(page)).toEqual({ unreached: [], backwards: [], unseen: [] });
    });
  });

  it.each(['light', 'dark'] as const)(
    'the greeting of a fresh book is whole in the %s theme',
    async (theme) => {
      const greeting = await openLook(browser, await fresh.newAddress(), { colorScheme: theme });
      await bringAxe(greeting.page);
      expect(await themeOf(greeting)).toBe(theme);
      await greeting.page.getByText('Start a new book').first().waitFor();
      await checkWhole(greeting);
    },
  );
}
