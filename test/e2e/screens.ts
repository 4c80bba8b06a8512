/** Every place in a real browser in one theme: readable by everyone and without holes. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { openLook, stillText, type Look } from './look-at.ts';
import { PLACES, subjectsOf, type Subjects } from './places.ts';
import { serve, type Served } from './served.ts';

/** What a person would take for a broken program. */
const HOLES = /\bNaN\b|\bundefined\b|\[object|\bnull\b/;

interface Violation {
  id: string;
  impact: string;
  nodes: { target: string; html: string }[];
}

/** What an accessibility checker would hold against the page as it stands, from moderate up. */
async function violations(page: Page): Promise<Violation[]> {
  return page.evaluate(async () => {
    const checker = (window as unknown as { axe: typeof axe }).axe;
    const { violations: found } = await checker.run(document, {
      resultTypes: ['violations'],
      preload: false, // only asks for the style sheets again
    });
    return found
      .filter(({ impact }) => impact === 'moderate' || impact === 'serious' || impact === 'critical')
      .map(({ id, impact, nodes }) => ({
        id,
        impact: String(impact),
        nodes: nodes.slice(0, 3).map(({ target, html }) => ({ target: target.join(' '), html })),
      }));
  });
}

async function checkWhole({ page, complaints }: Look): Promise<void> {
  expect(await stillText(page)).not.toMatch(HOLES);
  expect(await violations(page)).toEqual([]);
  expect(complaints.splice(0)).toEqual([]);
}

/** Tests every place of the demo and the greeting of a fresh book. */
export function everyPlaceIsWhole(theme: 'light' | 'dark'): void {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-screens-'));
  let demo: Served;
  let fresh: Served;
  let browser: Browser;
  let look: Look;
  let subjects: Subjects;

  beforeAll(async () => {
    [demo, fresh, browser] = await Promise.all([
      serve('--demo'),
      serve('--book', join(folder, 'fresh.gambrel')),
      openBrowser(),
    ]);
    subjects = await subjectsOf(await demo.newAddress());
    look = await openLook(browser, await demo.newAddress(), { colorScheme: theme });
    await look.page.evaluate(axe.source);
    expect(await look.page.locator('html').getAttribute('data-theme')).toBe(theme);
  });
  afterAll(async () => {
    await browser?.close();
    await Promise.all([demo?.end('SIGINT'), fresh?.end('SIGINT')]);
    rmSync(folder, { recursive: true, force: true });
  });

  it.each(PLACES)('$name is whole', async (place) => {
    await look.goTo(place, subjects);
    await checkWhole(look);
  });

  it('the greeting of a fresh book is whole', async () => {
    const greeting = await openLook(browser, await fresh.newAddress(), { colorScheme: theme });
    await greeting.page.evaluate(axe.source);
    await greeting.page.getByText('Start an empty book').first().waitFor();
    await checkWhole(greeting);
  });
}
