/** A deer from intake to pickup, by keyboard, in a window of another language. Every name is read from its catalogue. */
import { expect } from 'vitest';
import type { Language } from '../../../src/words/languages.ts';
import { bringAxe, COLOR_RULES, violations } from '../axe-check.ts';
import { cutOff, splitWords } from '../reach.ts';
import type { ShopWindow } from '../shop-window.ts';
import type { WordsOf } from './words-of.ts';

/** A window of the shop, what it calls things, and what was found wrong on the pages that it passed. */
export interface Job {
  shop: Pick<ShopWindow, 'call' | 'page' | 'keys'>;
  words: WordsOf;
  language: Language;
}

const HUNTER = {
  'en-CA': 'Ann Alder',
  'es-MX': 'Benito Encina',
  'fr-CA': 'Claude Érable',
  qps: 'Dana Fir',
  'en-US': 'Eve Oak',
};

/** Nothing on the page is cut off, and axe finds nothing. */
async function isWhole({ shop: { page }, language }: Job, where: string): Promise<void> {
  const found = await violations(page, undefined, COLOR_RULES); // a language has no colors of its own
  // The code of the pseudo-language is none of a language.
  const faults = language === 'qps' ? found.filter(({ id }) => id !== 'html-lang-valid') : found;
  expect(faults, `axe at ${where}`).toEqual([]);
  expect(await cutOff(page), `cut off at ${where}`).toEqual([]);
  expect(await splitWords(page), `broken words at ${where}`).toEqual([]);
}

async function takeIn(job: Job): Promise<string> {
  const { shop, words } = job;
  const { keys, page } = shop;
  const { intake, common } = words;
  await keys.goTo('intake', 2);
  await bringAxe(page);
  await keys.fill(intake.find, HUNTER[job.language]);
  await keys.fill(intake.phone, '307-555-0142');
  await keys.choose(intake.species, words.named('species.mule-deer.name'));
  await keys.choose(intake.sex, common.sex.unknown);
  await keys.choose(intake.age, common.age.adult);
  await keys.choose(intake.brought, common.brought.skinned);
  await keys.fill(intake.hanging, '80');
  await isWhole(job, 'intake');
  await keys.press('Control+Enter');
  await keys.tabTo(page.getByRole('button', { name: intake.toTable }));
  await keys.press('Enter');
  await page.waitForURL(/#\/table\/\d\d-\d{4}$/);
  return page.url().split('/').at(-1) ?? '';
}

async function cut(job: Job, ticket: string): Promise<void> {
  const { shop, words } = job;
  const { keys, page } = shop;
  const { table, common } = words;
  for (const [part, typed] of [
    ['whole cuts', '30.2'],
    ['trim', '25.4'],
    ['bone', '18'],
  ] as const) {
    await keys.choose(table.part, common.part[part]);
    await keys.type(typed);
    await keys.press('Enter');
    await page
      .getByRole('row', { name: new RegExp(typed.replace('.', '[.,]')) })
      .first()
      .waitFor();
  }
  // A row with these figures may have been there before.
  await expect
    .poll(async () => (await shop.call('animals.get', { ticket })).weighings.length, { timeout: 10_000 })
    .toBe(4);
  await isWhole(job, 'the table');
  await keys.pressOn(table.steps.cut);
}

async function grind(job: Job, ticket: string): Promise<void> {
  const { shop, words } = job;
  const { keys, page } = shop;
  const { grinder } = words;
  await keys.goTo('grinder', 4);
  await keys.tabTo(page.getByRole('checkbox', { name: grinder.pick({ ticket }), exact: true }));
  await keys.press('Space');
  await keys.choose(grinder.whichFat, grinder.noFat);
  // The plan is there.
  await page.getByRole('button', { name: grinder.start }).waitFor();
  await isWhole(job, 'the grinder');
  await keys.press('Control+Enter');
  await page.waitForURL(/#\/grinder\/\d+$/);
  const weighIn = page
    .locator('section')
    .filter({ has: page.getByRole('heading', { name: grinder.weighIn, exact: true }) });
  await keys.tabTo(weighIn.getByRole('textbox').first());
  await keys.type('25.4');
  await keys.press('Enter');
  await page.getByRole('table', { name: grinder.lots, exact: true }).waitFor();
  await keys.fill(grinder.count, '25');
  await keys.fill(grinder.packWeight({ count: 25 }), '25.2');
  await keys.press('Enter');
  await page.getByRole('table', { name: grinder.pack, exact: true }).waitFor();
  await isWhole(job, 'the batch');
  await keys.pressOn(grinder.finish);
  await page.getByText(grinder.finished).waitFor();
}

async function pay(job: Job, ticket: string): Promise<void> {
  const { shop, words } = job;
  const { keys, page } = shop;
  const { bill, table } = words;
  await page.evaluate((to) => (location.hash = `/table/${to}`), ticket);
  await keys.pressOn(table.ready);
  await keys.tabTo(page.getByRole('link', { name: bill.toBill, exact: true }));
  await keys.press('Enter');
  await keys.pressOn(bill.make);
  // Only a bill has a balance to pay in full.
  await page.getByRole('button', { name: bill.void, exact: true }).waitFor();
  await keys.choose(bill.method, bill.methods.cash);
  // The amount is the balance due.
  await keys.pressOn(bill.save);
  await page.getByText(bill.settled, { exact: true }).first().waitFor();
  await isWhole(job, 'the bill');
}

async function handOver(job: Job, ticket: string): Promise<void> {
  const { keys, page } = job.shop;
  const { pickup } = job.words;
  await keys.goTo('pickup', 7);
  await keys.pressOn(pickup.handOverOf({ ticket }));
  await page.getByRole('dialog').waitFor();
  await isWhole(job, 'pickup');
  await keys.pressOn(pickup.confirm);
  await page.getByText(pickup.done({ ticket, to: HUNTER[job.language] })).waitFor();
}

/** @returns the ticket of the animal, which has gone home */
export async function doMainJob(job: Job): Promise<string> {
  const ticket = await takeIn(job);
  await cut(job, ticket);
  await grind(job, ticket);
  await pay(job, ticket);
  await handOver(job, ticket);
  return ticket;
}
