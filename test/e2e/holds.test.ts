/**
 * An animal with a pending sample: it is neither cut nor handed over before the result; and the steps after a
 * positive one.
 */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { scanTicket } from '../replay/open-ticket.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let deer: { id: number; ticket: string };
let sick: { id: number; ticket: string };

beforeAll(async () => {
  shop = await openShop();
  deer = await deerAtDesk(shop, 'Ann Alder', {}, { sample: 'L-704' });
  sick = await deerAtDesk(shop, 'Bo Birch', {}, { sample: 'L-705' });
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

const weighing = () => shop.page.locator('main input[inputmode="decimal"]').first();

describe('an animal on hold', () => {
  it('cannot be cut before the result, with the reason', async () => {
    const { keys, page } = shop;
    await scanTicket(page, deer.ticket);
    await page.getByText(/do not cut, grind or pack it until the result is in/).waitFor();
    expect(await page.getByRole('button', { name: 'Take to the table' }).count()).toBe(0);
    await keys.tabTo(weighing());
    await keys.type('78.5');
    await keys.press('Enter');
    await page.getByRole('table', { name: 'Weights of this animal' }).getByText('78.5 lb').first().waitFor();
    await keys.tabTo(weighing());
    await keys.press('t');
    await keys.type('20');
    await keys.press('Enter');
    await page.getByText(/L-704/).first().waitFor();
    await page.getByRole('alert').filter({ hasText: /hold/i }).first().waitFor();
    expect((await shop.call('animals.get', { id: deer.id })).trimGrams).toBe(0);
  });

  it('can be cut separately if the shop’s setting allows it', async () => {
    const { keys, page } = shop;
    await keys.goTo('shop', 0);
    await keys.choose('Cut animals on hold before the result', 'Yes, by themselves');
    await keys.pressOn('Save: Rail and cold');
    await page
      .getByText(/Settings saved/)
      .first()
      .waitFor();
    await scanTicket(page, deer.ticket);
    // The refused text is still in the entry.
    await keys.tabTo(weighing());
    expect(await weighing().inputValue()).toBe('20');
    await keys.press('Enter');
    await page.getByRole('table', { name: 'Weights of this animal' }).getByText('20 lb').first().waitFor();
    await keys.pressOn('Finished cutting');
    await keys.pressOn('Packed, ready for pickup');
    await page
      .getByText(/20\.00 lb is missing|20 lb is missing/)
      .first()
      .waitFor();
    await keys.fill('Why it is right', 'the hunter took it home');
    await keys.pressOn('Mark ready anyway');
    await page.getByRole('button', { name: 'Back to packing' }).waitFor();
  });

  it('cannot be handed over before the result, whatever the setting', async () => {
    const { keys, page } = shop;
    await keys.goTo('pickup', 7);
    const row = page.getByRole('row', { name: new RegExp(deer.ticket) });
    await row.getByText('on hold').waitFor();
    expect(await row.getByRole('button', { name: /^Hand over/ }).count()).toBe(0);
    await expect(shop.call('pickup.release', { id: deer.id, to: 'Ann Alder' })).rejects.toThrow(
      'release.held',
    );
    expect((await shop.call('animals.get', { id: deer.id })).stage).toBe('ready');
  });

  it('is handed over after a negative result', async () => {
    const { keys, page } = shop;
    await scanTicket(page, deer.ticket);
    await keys.pressOn('Enter test result');
    await keys.choose('Result', 'Not detected');
    await keys.fill('Laboratory', 'State lab');
    await keys.tabTo(page.getByRole('dialog').getByRole('button', { name: 'Save result' }));
    await keys.press('Enter');
    await page.getByText(`${deer.ticket}: not detected. The hold has ended.`).waitFor();
    await page.getByText(/Not detected: sample L-704, State lab, reported/).waitFor();
    await keys.goTo('pickup', 7);
    await keys.pressOn(`Hand over ${deer.ticket}`);
    await keys.tabTo(page.getByRole('button', { name: 'Hand over', exact: true }));
    await keys.press('Enter');
    await page.getByText(`${deer.ticket} was handed to Ann Alder.`).waitFor();
  });

  it('shows the advice after a positive result, is disposed of, and stays in the record book', async () => {
    const { keys, page } = shop;
    await scanTicket(page, sick.ticket);
    await keys.pressOn('Enter test result');
    await keys.choose('Result', 'Positive');
    await keys.tabTo(page.getByRole('dialog').getByRole('button', { name: 'Save result' }));
    await keys.press('Enter');
    await page.getByRole('list', { name: 'What to do, in this order' }).waitFor();
    // The advice is visible, wherever the button for the result was.
    await expect
      .poll(
        async () => (await page.getByRole('list', { name: 'What to do, in this order' }).boundingBox())?.y,
      )
      .toBeGreaterThan(0);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('Tested positive');
    expect(
      await page.getByRole('list', { name: 'What to do, in this order' }).getByRole('listitem').count(),
    ).toBeGreaterThanOrEqual(3);
    expect(await weighing().count()).toBe(0);
    await keys.pressOn('Record disposal');
    await keys.fill('How and where', 'Lined landfill, double-bagged');
    await keys.tabTo(page.getByRole('dialog').getByRole('button', { name: 'Record disposal' }));
    await keys.press('Enter');
    await page.getByText(`${sick.ticket} is recorded as disposed of.`).waitFor();
    expect((await shop.call('rail.get', {})).hooks).toEqual([]);
    await keys.goTo('books', 9);
    await page
      .getByRole('row', { name: new RegExp(`${sick.ticket}.*landfill`) })
      .first()
      .waitFor();
    expect(shop.complaints).toEqual([]);
  });
});
