/** A slow desk: a double press does nothing twice. That each place says that it waits stands with the places. */
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { openLook, type Look } from './look-at.ts';
import { PLACES, subjectsOf, type Subjects } from './places.ts';
import { serve, type Served } from './served.ts';
import { slowDesk, type SlowDesk } from './slow-desk.ts';

let demo: Served;
let browser: Browser;
let look: Look;
let page: Page;
let subjects: Subjects;
let slow: SlowDesk;

beforeAll(async () => {
  [demo, browser] = await Promise.all([serve('--demo'), openBrowser()]);
  subjects = await subjectsOf(await demo.newAddress());
  look = await openLook(browser, await demo.newAddress());
  ({ page } = look);
  slow = await slowDesk(page);
});
afterAll(async () => {
  await browser?.close();
  await demo?.end('SIGINT');
});
beforeEach(() => slow.letGo());

it('shows no indicator while answers are fast', async () => {
  await look.goTo(
    PLACES.find(({ name }) => name === 'rail')!,
    subjects,
  );
  expect(await slow.sign.count()).toBe(0);
});

/** Presses a button twice, faster than the window can react. */
const pressTwice = (button: Locator) =>
  button.evaluate((element: HTMLElement) => {
    element.focus();
    element.click();
    element.click();
  });
const go = (name: string) =>
  look.goTo(
    PLACES.find((place) => place.name === name)!,
    subjects,
  );
const button = (name: string | RegExp) => page.getByRole('button', { name, exact: true }).first();

describe('a write', () => {
  const writes: { call: string; ready: () => Promise<Locator> }[] = [
    {
      call: 'table.weigh',
      ready: async () => {
        await go('table of an agreed animal');
        await page.locator('.weight input').first().fill('3');
        return button('Save');
      },
    },
    {
      call: 'quotes.save',
      ready: async () => {
        await go('quote with an answer');
        await page.getByRole('combobox', { name: 'Hunter', exact: true }).fill('Ruth Amsel');
        return button('Save this quote');
      },
    },
    {
      call: 'grinder.start',
      ready: async () => {
        await go('grinder with a plan');
        return button(/^Start this batch/);
      },
    },
    {
      call: 'bills.pay',
      ready: async () => {
        await go('bill to be made');
        await page.getByLabel('Amount', { exact: true }).fill('20');
        return button('Save');
      },
    },
    {
      call: 'pickup.release',
      ready: async () => {
        await go('sheet: hand over');
        return button('Hand over');
      },
    },
  ];

  it.each(writes)('$call shows that it is pending, and is sent once', async ({ call, ready }) => {
    const press = await ready();
    slow.hold();
    await pressTwice(press);
    await slow.sign.waitFor();
    expect(await press.getAttribute('aria-busy')).toBe('true');
    expect(await page.evaluate(() => document.activeElement === document.body)).toBe(false);
    await press.evaluate((element: HTMLElement) => element.click());
    slow.letGo();
    await slow.sign.waitFor({ state: 'detached' });
    expect(slow.calls.filter((name) => name === call)).toEqual([call]);
  });
});
