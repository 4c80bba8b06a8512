/** A second hanging weight: the Table asks whether it is the same carcass, and each answer has its effect. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { scanTicket } from '../replay/open-ticket.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

const LB = 453.59237;
let shop: ShopWindow;

beforeAll(async () => {
  shop = await openShop();
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

/** A deer with a hanging weight, and a second one typed on its page. */
async function typedAgain(hunter: string, first: string, second: string): Promise<number> {
  const { keys, page, call } = shop;
  const deer = await deerAtDesk(shop, hunter, {}, { weights: [] });
  await call('table.weigh', {
    animalId: deer.id,
    stage: 'hanging',
    part: 'carcass',
    typed: first,
    confirmed: true,
  });
  await scanTicket(page, deer.ticket);
  await page.getByRole('radio', { name: 'Hanging', exact: true }).check({ force: true });
  await page.getByRole('textbox', { name: 'Hanging weight', exact: true }).focus();
  await keys.type(second);
  await keys.press('Enter');
  await page
    .getByText(`This animal already has a hanging weight of ${Number(first).toFixed(2)} lb.`)
    .waitFor();
  return deer.id;
}
const hangs = async (id: number): Promise<number> =>
  ((await shop.call('animals.get', { id })).weights.hangingGrams ?? 0) / LB;

describe('a second hanging weight', () => {
  it('replaces the first with R', async () => {
    const id = await typedAgain('Ann Alder', '78.5', '76.2');
    await shop.keys.press('r');
    await shop.page
      .getByRole('table', { name: 'Weights of this animal' })
      .getByText('76.2 lb')
      .first()
      .waitFor();
    expect(await hangs(id)).toBeCloseTo(76.2, 6);
  });

  it('is added as another side with Y', async () => {
    const id = await typedAgain('Bo Birch', '39.2', '38.6');
    await shop.keys.press('y');
    await shop.page
      .getByRole('table', { name: 'Weights of this animal' })
      .getByText('38.6 lb')
      .first()
      .waitFor();
    expect(await hangs(id)).toBeCloseTo(77.8, 6);
  });

  it('after two sides, asks whether it is another side', async () => {
    const { keys, page, call } = shop;
    const deer = await deerAtDesk(shop, 'Di Dogwood', {}, { weights: [] });
    for (const typed of ['39.2', '38.6'])
      await call('table.weigh', {
        animalId: deer.id,
        stage: 'hanging',
        part: 'carcass',
        typed,
        confirmed: true,
      });
    await scanTicket(page, deer.ticket);
    await page.getByRole('radio', { name: 'Hanging', exact: true }).check({ force: true });
    await page.getByRole('textbox', { name: 'Hanging weight', exact: true }).focus();
    await keys.type('37.9');
    await keys.press('Enter');
    await page
      .getByText('Another side or piece? This animal already has 2 hanging weights, 77.80 lb in all.')
      .waitFor();
    await keys.press('n');
    expect(await hangs(deer.id)).toBeCloseTo(77.8, 6);
  });

  it('is discarded with Escape', async () => {
    const id = await typedAgain('Cy Cedar', '78.5', '76.9');
    await shop.keys.press('Escape');
    await shop.page.getByText('This animal already has a hanging weight').waitFor({ state: 'detached' });
    expect(await hangs(id)).toBeCloseTo(78.5, 6);
    expect(shop.complaints).toEqual([]);
  });
});
