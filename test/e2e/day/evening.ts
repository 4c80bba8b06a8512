/**
 * The evening: open balances, closing the till to the cent, the record book of the week, and the accountant's file.
 */
import { readFileSync } from 'node:fs';
import { expect } from 'vitest';
import { printed } from '../paper.ts';
import { sheetOf } from '../../replay/spreadsheet.ts';
import { BILLED, dollars, DRAWER, OPEN, TILL, typed } from './figures.ts';
import { follow, look } from './hands.ts';
import { timesPrinted, type Day } from './open-day.ts';
import { EVERYBODY, GUESTS, GUS } from './people.ts';

/** Moves along the tabs by arrows until the given one is selected. */
async function toTab({ page, keys }: Day, name: string): Promise<void> {
  const wanted = page.getByRole('tab', { name, exact: true });
  await keys.tabTo(page.locator('[role=tab][aria-selected=true]'));
  for (let i = 0; i < 8 && (await wanted.getAttribute('aria-selected')) !== 'true'; i++)
    await keys.press('ArrowRight');
  expect(await wanted.getAttribute('aria-selected'), name).toBe('true');
}

/** Lou's rest and Gus's share, each under the debtor's name. */
export async function openBalances(day: Day): Promise<void> {
  const { page, keys } = day;
  await keys.goTo('pickup', 7);
  await follow(day, 'Open balances');
  await page.getByText(`${dollars(OPEN.total)} owed by 2 hunters`).waitFor();
  await look(day, '6-open-balances');
  const rows = page.getByRole('table', { name: 'Open balances' }).getByRole('row');
  for (const [name, phone, cents] of [
    [GUESTS.lou.name, GUESTS.lou.phone, OPEN.lou],
    [GUS.name, GUS.phone, OPEN.gus],
  ] as const) {
    const row = await rows.filter({ hasText: name }).first().innerText();
    expect(row).toContain(phone);
    expect(row).toContain(dollars(cents));
  }
}

/** The drawer is eleven cents short, which is recorded. */
export async function closeTill(day: Day): Promise<void> {
  const { page, keys, call } = day;
  await toTab(day, 'Day');
  await keys.fill('Opening float', typed(TILL.float));
  await keys.press('Enter');
  await page.getByText('Opening float saved.').waitFor();
  await page.getByText(dollars(TILL.expected)).first().waitFor();
  const sums = page.getByRole('table', { name: 'By method and person' });
  for (const [method, cents] of [['Cash', TILL.cash], ['Check', TILL.check], ['Card', TILL.card]] as const)
    expect(await sums.getByRole('row', { name: new RegExp(`^${method} All`) }).innerText(), method).toMatch(
      new RegExp(`\\${dollars(cents)}$`),
    ); // prettier-ignore
  await keys.choose('Count by', 'By bills and coins');
  for (const [piece, count] of Object.entries(DRAWER)) await keys.fill(`Number of ${piece}`, String(count));
  await page.getByText(dollars(TILL.counted)).first().waitFor();
  await look(day, '7-till');
  await keys.pressOn('Close day');
  await page.getByText(`The drawer is ${dollars(TILL.short)} short`).waitFor();
  await look(day, '7-till-short');
  await keys.type('Pennies given away');
  await keys.press('Enter');
  await page.getByText('Day closed. Closing 1.').waitFor();
  await look(day, '7-till-closed');
  expect((await call('till.get', {})).closing).toMatchObject({
    number: 1, countedMinor: TILL.counted, overMinor: -TILL.short, note: 'Pennies given away', by: 'MK',
  }); // prettier-ignore
  const [paper] = await printed(page);
  for (const words of ['12 Creek Road', dollars(TILL.expected), dollars(TILL.short), 'Pennies given away'])
    expect(paper?.words).toContain(words);
}

/**
 * The record book for an officer: every animal of today once, the hold, the result and the disposal, and no money.
 */
export async function printForOfficer(day: Day): Promise<void> {
  const { page, keys, tickets, today } = day;
  await keys.goTo('books', 9);
  await keys.choose('Season', 'By date received');
  const from = new Date(Date.parse(`${today}T12:00:00Z`) - 6 * 86_400_000).toISOString().slice(0, 10);
  const figures = (date: string): string => `${date.slice(5, 7)}/${date.slice(8)}/${date.slice(0, 4)}`;
  await keys.fill('From', figures(from));
  await keys.fill('To', figures(today));
  await page
    .getByText(/^12 entries/)
    .first()
    .waitFor();
  await look(day, '8-record-book');
  await follow(day, 'Print or save as PDF');
  await page.getByRole('article', { name: /^Record book, received/ }).waitFor();
  await look(day, '8-record-paper');
  const before = await timesPrinted(day);
  await keys.pressOn('Print');
  await expect.poll(() => timesPrinted(day)).toBe(before + 1);
  const sheets = await printed(page);
  const plain = (text: string): string => text.replace(/\s+/g, '');
  const words = plain(sheets.map((sheet) => sheet.words).join(''));
  for (const who of EVERYBODY) {
    const { name, phone, tag } = GUESTS[who];
    for (const said of [tickets[who], name, phone, tag]) expect(words, who).toContain(plain(said));
  }
  for (const said of [
    GUS.name,
    'L26-704',
    'State lab',
    'Lined landfill, double-bagged',
    'Pine Studio',
    'Hunters Share',
  ])
    expect(words).toContain(plain(said));
  expect(words).toMatch(/onhold:testedpositivePositive,.*,sampleL26-704,Statelab/);
  // Al, Cal, Dee, and the deer of Flo and Gus.
  expect(words.split(plain(`affected by ${tickets.bea}, tested positive`))).toHaveLength(5);
  // Private to the hunter and the shop.
  expect(words).not.toMatch(/\$|owes|notbilled|USD/);
}

/** The accountant's file, added up by a spreadsheet library: the till to the cent, and the bills. */
export async function saveForAccountant(day: Day): Promise<void> {
  const { page, keys, today } = day;
  await keys.goTo('pickup', 7);
  await follow(day, 'Open till');
  await toTab(day, 'Accountant');
  await keys.fill('From', 'today');
  await look(day, '9-accountant');
  const [download] = await Promise.all([page.waitForEvent('download'), keys.pressOn('Save journal')]);
  expect(download.suggestedFilename()).toBe(`journal-${today}-${today}.csv`);
  const { rows, ask } = sheetOf(readFileSync(await download.path(), 'utf8'));
  expect(rows[0]?.slice(6, 11)).toEqual(['net', 'tax_rate', 'tax', 'payment', 'method']);
  for (const [method, cents] of [['cash', TILL.cash], ['check', TILL.check], ['card', TILL.card]] as const)
    expect(ask(`=SUMIF(K2:K200,"${method}",J2:J200)`), method).toBe(cents); // prettier-ignore
  expect(ask('=SUM(J2:J200)')).toBe(TILL.total);
  expect(ask('=SUM(G2:G200)')).toBe(BILLED.net);
  expect(ask('=SUM(I2:I200)')).toBe(BILLED.tax);
}
