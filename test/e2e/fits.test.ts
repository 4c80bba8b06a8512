/** Every place on a small screen and enlarged to twice its size: nothing cut off, and each target wide enough for a glove. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { openLook, stillText, type Look } from './look-at.ts';
import { PLACES, subjectsOf, type Subjects } from './places.ts';
import { coveredShare, cutOff, smallTargets } from './reach.ts';
import { serve, type Served } from './served.ts';

/** The smallest screen on which the tool is offered. */
const SMALL = { width: 1024, height: 768 };
/** What is left of 1366 × 768 at 200 %. */
const ENLARGED = { width: 683, height: 384 };

let demo: Served;
let browser: Browser;
let look: Look;
let subjects: Subjects;

beforeAll(async () => {
  [demo, browser] = await Promise.all([serve('--demo'), openBrowser()]);
  subjects = await subjectsOf(await demo.newAddress());
  look = await openLook(browser, await demo.newAddress(), { viewport: SMALL });
});
afterAll(async () => {
  await browser?.close();
  await demo?.end('SIGINT');
});

it.each(PLACES)('$name fits', async (place) => {
  const { page } = look;
  await page.setViewportSize(SMALL);
  await look.goTo(place, subjects);
  await stillText(page);
  expect(await cutOff(page), 'on a small screen').toEqual([]);
  expect(await smallTargets(page), 'for a finger').toEqual([]);
  await page.setViewportSize(ENLARGED);
  await stillText(page);
  expect(await cutOff(page), 'enlarged').toEqual([]);
  expect(await coveredShare(page), 'covered by what does not scroll').toBeLessThan(0.5);
});
