/** The Books on a small laptop's first screen: filters in one row, figures on their points, names of groups once. */
import type { Locator } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openFirstScreen, type FirstScreen } from './first-screen.ts';

/** One line and the hairline above it. */
const ROW = 46;

let screen: FirstScreen;
beforeAll(async () => {
  screen = await openFirstScreen('record book');
}, 120_000);
afterAll(() => screen?.close());

const rows = (): Locator => screen.page.locator('main tbody tr');

/** The texts of a column, whose number counts from 1. */
const column = (at: number): Promise<string[]> =>
  screen.page.locator(`main tbody td:nth-child(${at})`).allInnerTexts();

async function turnTo(tab: string): Promise<void> {
  await screen.page.getByRole('tab', { name: tab }).click();
  await rows().first().waitFor();
}

async function expectRowsOfOneLine(): Promise<void> {
  const heights = await rows().evaluateAll((all) => all.map((row) => row.getBoundingClientRect().height));
  expect(Math.max(...heights)).toBeLessThanOrEqual(ROW);
}

it('finds and filters the record book in one row, with entries below', async () => {
  const { page, inside } = screen;
  const names = ['Find', 'Season', 'Species', 'Status', 'Show'];
  const fields = names.map((name) => page.locator('main').getByLabel(name, { exact: true }));
  const tops = await Promise.all(fields.map(async (field) => (await field.boundingBox())?.y));
  expect(new Set(tops).size).toBe(1);
  expect(await fields[0]?.getAttribute('placeholder')).toBe('Ticket, name or tag');
  for (const at of [0, 1]) await inside(rows().nth(at));
});

it('shows the weights as bare figures in columns of their own, and no repeated default', async () => {
  const heads = await screen.page.locator('main thead th').allInnerTexts();
  const at = heads.indexOf('Received, lb') + 1;
  expect(heads.slice(at - 1, at + 2)).toEqual(['Received, lb', 'Hanging, lb', 'Take-home, lb']);
  for (const figures of [await column(at), await column(at + 1), await column(at + 2)])
    for (const figure of figures) expect(figure).toMatch(/^([\d,]+\.\d\d)?$/);
  expect(await screen.page.locator('main tbody').innerText()).not.toMatch(/complete|not billed/);
});

it('shows each entry in one line, and its details where they are asked for', async () => {
  await expectRowsOfOneLine();
  const first = rows().first();
  expect(await first.innerText()).not.toContain('636 Juniper Court');
  await first.getByRole('button', { name: /^Details of 26-/ }).click();
  await first.getByText('636 Juniper Court, Larkmoor').waitFor();
  await first.getByText('Stovepipe Basin 21').waitFor();
  await first.getByRole('button', { name: /^Details of 26-/ }).click();
  await expectRowsOfOneLine();
});

it('shows prices and what they are for in two columns, in rows of one line', async () => {
  await turnTo('Prices');
  for (const amount of await column(3)) expect(amount).toMatch(/^-?\$?[\d,.]+%?$/);
  expect(new Set(await column(4))).toEqual(new Set(['', 'per lb']));
  expect(await screen.page.locator('main tbody').innerText()).not.toMatch(/every animal|none/);
  await expectRowsOfOneLine();
});

it.each(['Products', 'Templates'])('names each group of “%s” once, in rows of one line', async (tab) => {
  await turnTo(tab);
  const groups = await screen.page
    .locator('main tbody td:first-child span')
    .evaluateAll((all) =>
      all.filter((one) => !one.matches('.out-of-sight')).map((one) => one.textContent.trim()),
    );
  expect(groups.length).toBeGreaterThan(1);
  expect(new Set(groups).size).toBe(groups.length);
  expect(await rows().count()).toBeGreaterThan(groups.length);
  await expectRowsOfOneLine();
});

it('says what fat to order beside its name, and has lots past their date on top', async () => {
  await turnTo('Fat on hand');
  await expect.poll(() => screen.page.locator('main table').count()).toBe(2);
  const [needs, lots] = await screen.page.locator('main table').all();
  if (!needs || !lots) throw new Error('Two tables are expected.');
  expect((await needs.locator('th').allInnerTexts()).slice(0, 2)).toEqual(['Fat', 'To order']);
  const past = await lots
    .locator('tbody tr')
    .evaluateAll((all) => all.map((row) => row.querySelector('.attention') !== null));
  expect(past).toEqual([...past].sort((a, b) => Number(b) - Number(a)));
});

it('says what of the fat on hand is past its date and not in the sum', async () => {
  await turnTo('Fat on hand');
  await screen.page
    .getByText(/^without \d+ lb past its date$/)
    .first()
    .waitFor();
});

it('sums the donations of the season', async () => {
  await turnTo('Donations');
  const [sum] = await screen.page
    .getByText(/^\d+ donations, [\d.]+ lb\. Programs owe \$[\d.]+\.$/)
    .allInnerTexts();
  const owed = await screen.page.locator('main table').first().locator('tbody td:last-child').allInnerTexts();
  const dollars = owed.reduce((total, one) => total + Number(one.slice(1)), 0);
  expect(sum).toContain(`Programs owe $${dollars.toFixed(2)}.`);
});

it.each([1024, 810])('keeps its tabs in one row and its entries in rows at %i px', async (width) => {
  const { page } = screen;
  await page.setViewportSize({ width, height: 768 });
  for (const tab of ['Record book', 'Fat on hand']) {
    await turnTo(tab);
    const tabs = await page.getByRole('tab').all();
    const boxes = await Promise.all(tabs.map((one) => one.boundingBox()));
    expect(new Set(boxes.map((box) => box?.y)).size).toBe(1);
    expect(Math.max(...boxes.map((box) => (box?.x ?? 999) + (box?.width ?? 999)))).toBeLessThanOrEqual(width);
    expect(Math.min(...boxes.map((box) => box?.width ?? 0))).toBeGreaterThanOrEqual(44);
    await expect.poll(() => page.locator('main table').count()).toBeGreaterThan(0);
    expect(await page.locator('main .stacked').count(), tab).toBe(0);
  }
  await turnTo('Record book');
  const papers = await page
    .locator('main tbody .papers')
    .evaluateAll((all) => all.map((one) => [one.textContent, one.getBoundingClientRect().height] as const));
  expect(papers.length).toBeGreaterThan(3);
  for (const [said, height] of papers) expect(height, `license and tag: ${said}`).toBeLessThan(26);
});
