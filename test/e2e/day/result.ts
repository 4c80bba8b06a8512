/**
 * The laboratory calls: Bea's deer, ground with those of four others, tested positive. One of them has been picked
 * up.
 */
import { expect } from 'vitest';
import { look, openAnimal, pressInSheet, sheet } from './hands.ts';
import type { Day } from './open-day.ts';
import { GUESTS, GUS, type Who } from './people.ts';

const REACHED = ['al', 'cal', 'dee', 'flo'] as const satisfies readonly Who[];
const entryOf = ({ page, tickets }: Day, who: Who) =>
  page
    .getByRole('list', { name: 'Animals and hunters' })
    .getByRole('listitem')
    .filter({ hasText: tickets[who] });

/** The hunter sent the sample, so the animal was not on hold. */
export async function comesBackPositive(day: Day): Promise<void> {
  const { page, keys, tickets } = day;
  await openAnimal(day, 'bea');
  await keys.pressOn('Put on hold');
  await keys.choose('Why', 'Sample sent in');
  await keys.fill('Sample number', 'L26-704');
  await pressInSheet(day, 'Put on hold');
  await keys.pressOn('Enter test result');
  await keys.choose('Result', 'Positive');
  expect(await sheet(day).getByRole('textbox', { name: 'Sample number' }).inputValue()).toBe('L26-704');
  await keys.fill('Laboratory', 'State lab');
  await pressInSheet(day, 'Save result');
  await page.getByText(`${tickets.bea} tested positive. The hold stays.`).waitFor();
  // The page was scrolled to its end; it must scroll to the advice by itself.
  await expect
    .poll(() => page.getByRole('list', { name: 'What to do, in this order' }).boundingBox())
    .not.toBeNull();
  await expect.poll(() => page.evaluate(() => window.scrollY)).toBe(0);
}

/**
 * Each animal of the batch, each hunter with a phone number, those who have the meat first; no animal of the other
 * batch.
 */
export async function namesEverybody(day: Day): Promise<void> {
  const { page } = day;
  await page.getByText(/reached 4 other animals in 1 batch/).waitFor();
  await look(day, '5-positive');
  const entries = page.getByRole('list', { name: 'Animals and hunters' }).locator('> li');
  expect(await entries.count()).toBe(REACHED.length);
  for (const who of REACHED) {
    const said = await entryOf(day, who).innerText();
    for (const words of [GUESTS[who].name, GUESTS[who].phone, 'To call']) expect(said, who).toContain(words);
  }
  const pair = await entryOf(day, 'flo').innerText();
  for (const words of [GUS.name, GUS.phone]) expect(pair).toContain(words);
  // Al has picked up everything, Flo her share.
  for (const who of ['al', 'flo'] as const)
    expect(await entryOf(day, who).innerText(), who).toMatch(/Handed over/);
  for (const who of ['cal', 'dee'] as const)
    expect(await entryOf(day, who).innerText(), who).not.toMatch(/Handed over/);
}

/** The meat of Cal and Gus cannot leave Pickup and Dee's cannot be set ready, neither by key nor through the desk. */
export async function refusesTheRest(day: Day): Promise<void> {
  const { page, keys, call, ids, tickets } = day;
  await keys.goTo('pickup', 7);
  await look(day, '5-pickup');
  for (const who of ['cal', 'flo'] as const) {
    const row = page.getByRole('row', { name: new RegExp(tickets[who]) });
    await row
      .getByText(/tested positive/)
      .first()
      .waitFor();
    expect(await row.getByRole('button', { name: /^Hand over/ }).count(), who).toBe(0);
  }
  await expect(call('pickup.release', { id: ids.cal, to: GUESTS.cal.name, unpaidBy: 'MK' })).rejects.toThrow(
    /pooled|held|positive/,
  );
  const gus = (await call('animals.get', { id: ids.flo })).sharers.find(({ name }) => name === GUS.name);
  await expect(
    call('shares.release', { id: ids.flo, hunterId: gus?.hunterId ?? 0, to: GUS.name, unpaidBy: 'MK' }),
  ).rejects.toThrow(/pooled|held|positive/);
  await openAnimal(day, 'dee');
  await page
    .getByText(/which tested positive/)
    .first()
    .waitFor();
  await look(day, '5-not-ready');
  expect(await page.getByRole('button', { name: 'Packed, ready for pickup' }).count()).toBe(0);
  await expect(call('animals.setStage', { id: ids.dee, stage: 'ready' })).rejects.toThrow(
    /pooled|held|positive/,
  );
}

/** Al is called first; Bea's deer goes to the landfill. */
export async function isDealtWith(day: Day): Promise<void> {
  const { page, keys, tickets } = day;
  await openAnimal(day, 'bea');
  await keys.pressOn(`Record what was done about ${tickets.al}`);
  await sheet(day).getByText(GUESTS.al.name).first().waitFor();
  await keys.fill('Note', 'Brings it back tonight');
  await look(day, '5-called');
  await keys.press('Enter');
  await entryOf(day, 'al').getByText('Brings it back tonight').waitFor();
  expect(await entryOf(day, 'al').innerText()).not.toContain('To call');
  await keys.pressOn('Record disposal');
  await keys.fill('How and where', 'Lined landfill, double-bagged');
  await pressInSheet(day, 'Record disposal');
  await page.getByText(`${tickets.bea} is recorded as disposed of.`).waitFor();
}
