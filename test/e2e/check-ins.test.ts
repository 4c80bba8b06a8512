/** Hunters' own check-ins in the office: by keyboard from the queue to a ticket, put aside and back, found by a slip, and on paper. */
import { join } from 'node:path';
import { writeFileSync } from 'node:fs';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { bringAxe, violations } from './axe-check.ts';
import { workAs } from './frame.ts';
import { pngOf, printed, PT_PER_MM, readCode } from './paper.ts';
import { openShop, type ShopWindow } from './shop-window.ts';

/** A folder for pictures of what this test sees. */
const PICTURES = process.env.CHECK_IN_PICTURES;
const TERMS = 'Recoja en 5 días después de nuestra llamada.';
const DRAFT = {
  language: 'es-MX', name: 'Rosa Vega', phone: '307 555 0142', licence: 'WY-77', tag: 'T-4711', species: 'mule-deer', sex: 'female',
  killArea: 'Zona 7', terms: TERMS, signature: 'M60,200L160,60L260,220L360,80L460,200L700,150',
} as const; // prettier-ignore

let shop: ShopWindow;
let code: string;
let ticket: string;
beforeAll(async () => {
  shop = await openShop();
  const { call } = shop;
  await call('shop.saveSettings', {
    changes: { dropOffTerms: 'Pick up within 5 days of our call.', dropOffTermsIn: { 'es-MX': TERMS } },
  });
  await call('shop.addStaff', { initials: 'MK', name: 'Mika Koski' });
  await call('drafts.add', DRAFT);
  await call('drafts.add', { ...DRAFT, name: 'Bo Rask', tag: '' });
  [code = ''] = (await call('slips.add', { count: 1 })).codes;
  await workAs(shop.page, 'MK');
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

const goTo = (hash: string) => shop.page.evaluate((to) => (location.hash = to), hash);
const picture = async (name: string) => {
  if (PICTURES) await shop.page.screenshot({ path: join(PICTURES, `${name}.png`), fullPage: true });
};

it('fills Intake in from the first who waits, by keyboard, up to the ticket', async () => {
  const { page, keys, call } = shop;
  await goTo('#/intake');
  await page.getByRole('heading', { name: 'Waiting at check-in: 2' }).waitFor();
  await picture('queue');
  await keys.press('F4');
  await keys.press('Enter');
  await page.getByRole('heading', { name: 'From Rosa Vega’s own check-in' }).waitFor();
  expect(await page.getByRole('textbox', { name: 'Phone' }).inputValue()).toBe('307 555 0142');
  await page.getByText('Terms signed').click();
  await page.getByText(TERMS).waitFor();
  await picture('taken');
  await bringAxe(page);
  expect(await violations(page)).toEqual([]);
  await page.getByRole('radio', { name: 'Skinned' }).check({ force: true });
  await page.getByLabel('Weight received').fill('96');
  await keys.press('Control+Enter');
  await page.getByText('Write this ticket on the tag').waitFor();
  const [found] = await call('animals.find', { text: 'Rosa' });
  ticket = found?.ticket ?? '';
  expect(await call('animals.get', { ticket })).toMatchObject({
    hunter: { language: 'es-MX' },
    tag: 'T-4711',
    killArea: 'Zona 7',
  });
  expect(await call('drafts.list', {})).toMatchObject([{ name: 'Bo Rask' }]);
}, 60_000);

it('puts one aside, and Undo puts it back', async () => {
  const { page, call } = shop;
  await page.getByRole('button', { name: 'Next animal' }).click();
  await page.getByRole('button', { name: /^Bo Rask/ }).click();
  await page.getByRole('button', { name: 'Set aside' }).click();
  await page.getByRole('dialog').getByRole('button', { name: 'Hunter left' }).click();
  await page.getByText('Bo Rask’s check-in was set aside.').waitFor();
  expect(await call('drafts.list', {})).toEqual([]);
  await page.getByRole('button', { name: /^Undo/ }).click();
  await page.getByRole('heading', { name: 'Waiting at check-in: 1' }).waitFor();
}, 60_000);

it('opens a scanned slip: blank for its animal, later the animal', async () => {
  const { page, keys, call } = shop;
  await goTo('#/shop');
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  for (const key of code) await keys.press(key);
  await keys.press('Enter');
  await page.getByText(`Slip ${code}: nothing has been entered for it yet`).waitFor();
  await page.getByRole('combobox', { name: 'Name or phone number' }).fill('Luc Morin');
  for (const name of ['Mule deer', 'Buck', 'Skinned'])
    await page.getByRole('radio', { name, exact: true }).check({ force: true });
  await keys.press('Control+Enter');
  await page.getByText('Write this ticket on the tag').waitFor();
  const found = await call('slips.find', { code });
  await goTo('#/rail');
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  for (const key of code) await keys.press(key);
  await keys.press('Enter');
  await expect.poll(() => page.url()).toContain(`#/table/${found.ticket}`);
}, 60_000);

it('shows what was signed on the animal’s page and on the receipt, as it was signed', async () => {
  const { page } = shop;
  await goTo(`#/table/${ticket}`);
  await page.getByRole('heading', { name: 'Terms signed' }).waitFor();
  await page.getByRole('img', { name: 'Signature of Rosa Vega' }).scrollIntoViewIfNeeded();
  await picture('animal');
  await goTo(`#/receipt/${ticket}`);
  await page.getByRole('img', { name: 'Firma de Rosa Vega' }).waitFor();
  const [sheet] = await printed(page);
  expect(sheet?.words).toContain(TERMS);
  expect(sheet?.words).toContain('Firmado por Rosa Vega');
  expect(sheet?.words).not.toContain('Pick up within');
  if (PICTURES && sheet) writeFileSync(join(PICTURES, 'receipt.png'), pngOf(await sheet.picture()));
}, 60_000);

it('leaves a line to sign on where nobody signed', async () => {
  const { page, call } = shop;
  const { ticket: other } = await call('slips.find', { code });
  await goTo(`#/receipt/${other}`);
  await page.locator('article .sign').waitFor();
  const [sheet] = await printed(page);
  expect(sheet?.words).toContain('Pick up within 5 days of our call.');
}, 60_000);

it('prints slips, each with a number that a reader reads and the shop knows', async () => {
  const { page, call } = shop;
  await goTo('#/slips');
  await page.getByLabel('How many?').fill('3');
  await page.evaluate(() => (window.print = () => undefined));
  await page.getByRole('button', { name: /^Print slips/ }).click();
  await page.getByRole('article', { name: /^Slip/ }).first().waitFor();
  await picture('slips');
  const sheets = await printed(page);
  expect(sheets.map(({ width, height }) => [width, height])).toEqual([[612, 792], [612, 792]]); // prettier-ignore
  const [first] = sheets;
  const numbers = first?.words.match(/\d{3}-\d{3}-\d{3}/g) ?? [];
  expect(numbers).toHaveLength(2);
  for (const one of numbers)
    expect(await call('slips.find', { code: one })).toEqual({ code: one, draft: null, ticket: null });
  const drawn = await first?.picture();
  if (!first || !drawn) throw new Error('no page');
  if (PICTURES) writeFileSync(join(PICTURES, 'slips-paper.png'), pngOf(drawn));
  const width = first.width / PT_PER_MM;
  const height = first.height / PT_PER_MM / 2;
  for (const top of [0, height]) {
    const read = readCode(drawn, { left: width - 62, top, width: 62, height }, 'bars');
    expect(numbers).toContain(read);
  }
  expect(shop.complaints).toEqual([]);
}, 60_000);
