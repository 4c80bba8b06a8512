/** Lower legs on or off: entered at Intake for an animal in its hide, and corrected in its record. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { text as words } from '../../src/words/compiled/shared/common.ts';
import { text as intake } from '../../src/words/compiled/window/intake.ts';
import { text as record } from '../../src/words/compiled/window/books/record.ts';
import { openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let taken: { id: number; ticket: string };

beforeAll(async () => {
  shop = await openShop();
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

const legsOf = async (): Promise<string> => (await shop.call('animals.get', { id: taken.id })).legs;

describe('the lower legs of an animal in its hide', () => {
  it('are asked for at Intake only if they can be on', async () => {
    const { keys, page } = shop;
    await keys.goTo('intake', 2);
    await keys.fill('Name or phone number', 'Dana Whitlock');
    await keys.fill('Phone', '307-555-0142');
    await keys.choose('Species', 'Mule deer');
    await keys.choose('Sex', 'Buck');
    await keys.choose(intake.brought, words.brought.skinned);
    expect(await page.getByRole('group', { name: 'Lower legs' }).count()).toBe(0);
    await keys.choose(intake.brought, words.brought.whole);
    const legs = page.getByRole('group', { name: 'Lower legs', exact: true });
    expect(await legs.getByRole('radio', { name: 'Legs on' }).isChecked()).toBe(true);
    await keys.choose('Lower legs', 'Legs off');
    await keys.press('Control+Enter');
    await page.getByRole('button', { name: 'Take to the table' }).waitFor();
    const [hook] = (await shop.call('rail.get', {})).hooks;
    taken = hook ?? { id: 0, ticket: '' };
    expect(await legsOf()).toBe('off');
  });

  it('are corrected in the record, which shows them', async () => {
    const { keys, page } = shop;
    await page.goto(`${page.url().split('#')[0]}#/table/${taken.ticket}`);
    await page.getByText('Legs off').first().waitFor();
    await keys.pressOn(record.edit);
    const list = page.getByRole('combobox', { name: 'Lower legs', exact: true });
    expect(await list.inputValue()).toBe('off');
    await keys.choose('Lower legs', 'Legs on');
    await keys.fill(record.reason, 'They were on');
    await keys.press('Enter');
    await page.getByText('Legs on').first().waitFor();
    expect(await legsOf()).toBe('on');
    expect(shop.complaints).toEqual([]);
  });
});
