/**
 * Every part of the window on one page, in both themes, on two widths, beside what is stored of it in `stored/`.
 *
 * Two comparisons. Boxes, colors, borders and type of every element are compared in words, on every computer. The
 * pictures are compared dot by dot only under the build of Chromium that took them, because builds draw the edges of
 * letters differently. `UPDATE_PICTURES=1` stores both anew, after which `git diff` shows what changed.
 */
import { existsSync, globSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from '../browser.ts';
import { serve, type Served } from '../served.ts';
import { buildDevelopmentWindow, serveWindowFrom } from './development-window.ts';
import { choiceLooks } from './choice-looks.ts';
import { differingShare, inGray } from './dots.ts';
import { changesIn, portraitsOf, read, written, type Portrait } from './portrait.ts';

const STORED = join(import.meta.dirname, 'stored');
const BUILD = join(STORED, 'chromium.txt');
const UPDATE = Boolean(process.env.UPDATE_PICTURES);
const RENEW = 'If this is meant, store it anew: UPDATE_PICTURES=1 npx vitest run test/e2e/samples';
/** Share of the dots of a group that may differ. */
const FEW_DOTS = 0.0005;
const WIDTHS = [1366, 810] as const;
const THEMES = ['light', 'dark'] as const;
const LOOKS = THEMES.flatMap((theme) => WIDTHS.map((width) => ({ theme, width, name: `${theme}-${width}` })));
const DIALOGS = ['Open a dialog', 'Open a question for a reason', 'Open a choice of reasons'] as const;

let served: Served;
let browser: Browser;
let folder: string;
let page: Page;

beforeAll(async () => {
  [served, browser, folder] = await Promise.all([serve('--demo'), openBrowser(), buildDevelopmentWindow()]);
  const context = await browser.newContext({
    viewport: { width: 1366, height: 900 }, locale: 'en-US', timezoneId: 'America/Denver', reducedMotion: 'reduce',
  }); // prettier-ignore
  await serveWindowFrom(context, folder);
  page = await context.newPage();
  page.setDefaultTimeout(15_000);
  await page.goto(await served.newAddress());
  await page.locator('h1').first().waitFor();
  await page.evaluate(() => (location.hash = '#/parts'));
  await page.getByRole('heading', { name: 'Sample parts' }).waitFor();
  await page.evaluate(() => document.fonts.ready);
}, 180_000);
afterAll(async () => {
  await browser?.close();
  await served?.end('SIGINT');
  if (folder) rmSync(folder, { recursive: true, force: true });
});

/** Names of all components that are drawn now. Only a development build tells. */
const drawnParts = (): Promise<string[]> =>
  page.evaluate(() => {
    interface Instance { type: { __name?: string }; parent: Instance | null } // prettier-ignore
    const names = new Set<string>();
    for (const element of document.querySelectorAll('body *'))
      for (
        let one = (element as unknown as { __vueParentComponent?: Instance }).__vueParentComponent ?? null;
        one;
        one = one.parent
      )
        names.add(one.type.__name ?? '');
    return [...names];
  });

async function withToasts(): Promise<void> {
  await page.getByRole('button', { name: 'Show a toast' }).click();
  await page.locator('[data-sample] .toast').waitFor();
}

it('the page shows every part of src/ui/parts', async () => {
  await withToasts();
  const drawn = new Set(await drawnParts());
  for (const name of DIALOGS) {
    await page.getByRole('button', { name }).click();
    await page.getByRole('dialog').waitFor();
    for (const part of await drawnParts()) drawn.add(part);
    await page.keyboard.press('Escape');
  }
  const parts = globSync('src/ui/parts/**/*.vue').map((file) => basename(file, '.vue'));
  expect(parts.length).toBeGreaterThan(20);
  expect(parts.filter((part) => !drawn.has(part))).toEqual([]);
});

it('the page shows every token, and each color with its one meaning', async () => {
  const tokens = new Set(
    [...readFileSync('src/ui/look/tokens.css', 'utf8').matchAll(/^ {2}--([\w-]+):/gm)].map(
      ([, name]) => name ?? '',
    ),
  );
  const shown = new Set((await page.locator('.samples').innerText()).split(/[\s,]+/));
  expect(tokens.size).toBeGreaterThan(50);
  expect([...tokens].filter((name) => !shown.has(name))).toEqual([]);
});

describe.each(LOOKS)('in the $theme theme at $width px', ({ theme, width, name }) => {
  let onPage: Portrait[];
  let portrait: Portrait[];
  let picture: PNG;

  beforeAll(async () => {
    await page.emulateMedia({ colorScheme: theme });
    await page.setViewportSize({ width, height: 900 });
    await page.waitForFunction((now) => document.documentElement.dataset.theme === now, theme);
    await withToasts();
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.mouse.move(0, 0);
    await page.evaluate(() => scrollTo(0, 0));
    onPage = await portraitsOf(page, '[data-sample]');
    portrait = [...onPage];
    picture = PNG.sync.read(await page.screenshot({ fullPage: true }));
    for (const dialog of DIALOGS) {
      await page.getByRole('button', { name: dialog }).click();
      await page.getByRole('dialog').waitFor();
      portrait.push(...(await portraitsOf(page, '[role=dialog]')));
      await page.keyboard.press('Escape');
      await page.getByRole('dialog').waitFor({ state: 'detached' });
    }
    if (!UPDATE) return;
    mkdirSync(STORED, { recursive: true });
    writeFileSync(join(STORED, `${name}.txt`), written(portrait));
    writeFileSync(join(STORED, `${name}.png`), inGray(picture));
    writeFileSync(BUILD, `${browser.version()}\n`);
  });

  const stored = (): Map<string, Portrait> =>
    new Map(read(readFileSync(join(STORED, `${name}.txt`), 'utf8')).map((one) => [one.name, one]));

  it('boxes, colors, borders and type are as stored', () => {
    const before = stored();
    expect(
      portrait.map((one) => one.name),
      RENEW,
    ).toEqual([...before.keys()]);
    const changed = portrait.flatMap(({ name: group, lines }) => {
      const changes = changesIn(before.get(group)?.lines ?? [], lines);
      return changes.length === 0 ? [] : [`${group}:\n  ${changes.join('\n  ')}`];
    });
    expect(changed.join('\n'), RENEW).toBe('');
  });

  it('looks as in the stored picture, under the same build of Chromium', ({ skip }) => {
    const build = existsSync(BUILD) ? readFileSync(BUILD, 'utf8').trim() : '';
    skip(build !== browser.version(), `The pictures are of Chromium ${build}, this is ${browser.version()}.`);
    const before = PNG.sync.read(readFileSync(join(STORED, `${name}.png`)));
    const now = PNG.sync.read(inGray(picture, 1));
    const known = stored();
    const off = onPage.flatMap(({ name: group, box }) => {
      const was = known.get(group);
      const share = was ? differingShare({ picture: before, box: was.box }, { picture: now, box }) : 1;
      return share > FEW_DOTS ? [`${group} (${(share * 100).toFixed(2)}% of its dots)`] : [];
    });
    expect(off, RENEW).toEqual([]);
  });

  it('a chosen, a hovered and a focused choice differ in gray', async () => {
    for (const group of ['Sex', 'Species', 'Part']) {
      const { resting, hovered, focused, chosen } = await choiceLooks(page, group);
      const looks = { resting, hovered, focused, chosen };
      const said = Object.values(looks).map((look) => JSON.stringify(look));
      expect(new Set(said).size, `${group}: ${JSON.stringify(looks)}`).toBe(said.length);
      expect(chosen.bold, group).toBe(true);
      expect(chosen.border - resting.border, group).toBeGreaterThanOrEqual(2);
      expect(hovered.fill, group).toBe(resting.fill);
      expect(hovered.dark - resting.dark, group).toBeGreaterThan(0);
    }
  });
});
