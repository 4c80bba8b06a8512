/** What the tests do in the window itself: the same in the program and in a browser. */
import type { Page } from 'playwright-core';
import { PLACES } from '../e2e/places.ts';

const PLAN = 'grinder with a plan';

async function goTo(page: Page, place: string): Promise<void> {
  await page.evaluate((hash) => (location.hash = hash), `#${place}`);
  await page.getByRole('heading', { level: 1 }).first().waitFor();
}

/** In the demo: picks trim, fat and a target, and waits for what is to be weighed out. */
export async function planFat(page: Page): Promise<void> {
  const grinder = PLACES.find(({ name }) => name === PLAN);
  if (!grinder?.act) throw new Error(`There is no place called ${PLAN}.`);
  await goTo(page, '/grinder');
  await grinder.act(page);
  await page.getByText(grinder.sees).filter({ visible: true }).first().waitFor();
}

/** Presses what saves the record book as a table. */
export async function saveRecords(page: Page): Promise<void> {
  await goTo(page, '/books');
  await page.getByRole('button', { name: 'Save as table (CSV)' }).click();
}

/** What is wrong with a saved record book of the demo; '' for nothing. */
export function faultOfRecords(table: string): string {
  if (!table.startsWith('\uFEFFTicket,')) return `It begins with ${JSON.stringify(table.slice(0, 20))}`;
  const rows = table.trimEnd().split('\r\n').length - 1;
  return rows > 100 ? '' : `It has ${rows} rows`;
}
