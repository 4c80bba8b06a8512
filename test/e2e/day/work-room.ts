/**
 * Between counter and grinder: weights of the Table are saved through the desk; then two pooled batches by keyboard.
 */
import { expect } from 'vitest';
import { look } from './hands.ts';
import type { Day } from './open-day.ts';
import { EVERYBODY, GUESTS, type Guest, type Who } from './people.ts';

/**
 * Saves hanging weights, cuts, trim and packages, as far as an animal has them; the animals are then being packed.
 */
export async function cutEverything({ call, ids }: Day): Promise<void> {
  for (const who of EVERYBODY) {
    const { hanging, trim, cuts }: Guest = GUESTS[who];
    const weigh = { animalId: ids[who], confirmed: true };
    if (hanging) await call('table.weigh', { ...weigh, stage: 'hanging', part: 'carcass', typed: hanging });
    await call('table.weigh', { ...weigh, stage: 'cut', part: 'whole cuts', typed: cuts.typed });
    if (trim) await call('table.weigh', { ...weigh, stage: 'cut', part: 'trim', typed: trim });
    await call('table.weigh', { ...weigh, stage: 'packed', part: 'package', product: 'Steaks', ...cuts });
    await call('animals.setStage', { id: ids[who], stage: 'packing' });
  }
}

/** All but one, which is set ready later, or refused. */
export async function setReady({ call, ids }: Day, but: Who): Promise<void> {
  for (const who of EVERYBODY)
    if (who !== but) await call('animals.setStage', { id: ids[who], stage: 'ready' });
}

interface Batch {
  product: string;
  /** Percent; without it no fat is added. */
  target?: string;
  fat?: string;
  packages: number;
  packed: string;
  trims: Readonly<Partial<Record<Who, string>>>;
  shares: readonly string[];
}

const card = ({ page }: Day, title: string) =>
  page.locator('section').filter({ has: page.getByRole('heading', { name: title, exact: true }) });

/** Weighs in the next ingredient of the plan; done once it is in the list. */
async function weighIn(day: Day, typed: string): Promise<void> {
  await day.keys.type(typed);
  await day.keys.press('Enter');
  await day.page.getByRole('table', { name: 'What went in' }).getByText(`${typed} lb`).first().waitFor();
}

/** Grinds a pooled batch from plan to finish, and reads each owner's packages. */
export async function grind(day: Day, batch: Batch): Promise<void> {
  const { page, keys, tickets } = day;
  const owners = Object.keys(batch.trims) as Who[];
  await keys.goTo('grinder', 4);
  for (const who of owners) {
    await keys.tabTo(page.getByRole('checkbox', { name: `Grind ${tickets[who]}` }));
    await keys.press('Space');
  }
  await keys.choose('Fat', batch.fat ? 'Pork back fat' : 'No fat added');
  if (batch.target) await keys.fill('Target fat', batch.target);
  await keys.fill('Product', batch.product);
  if (batch.fat) await page.getByRole('list', { name: 'Weigh out' }).getByText(batch.fat).waitFor();
  await page.getByRole('button', { name: /^Start/ }).waitFor();
  await look(day, `3-plan-${batch.product}`);
  await keys.press('Control+Enter');
  await page.getByRole('heading', { level: 1, name: /^G\d\d-\d{3}$/ }).waitFor();
  for (const who of owners) await weighIn(day, batch.trims[who] ?? '');
  if (batch.fat) await weighIn(day, batch.fat);
  await keys.fill('Packages', String(batch.packages));
  await keys.fill(`Total weight of the ${batch.packages} packages`, batch.packed);
  await keys.press('Enter');
  await card(day, 'Owners').getByText(batch.packed).first().waitFor();
  const cells = await card(day, 'Owners').getByRole('row').getByRole('cell').allInnerTexts();
  const counts = cells.filter((_, i) => i % 5 === 4).slice(0, -1);
  expect(counts, batch.product).toEqual(batch.shares);
  await look(day, `3-packed-${batch.product}`);
  await keys.pressOn('Finish this batch');
  await page.getByText('This batch is finished.').waitFor();
}

/** The grinder is cleaned before the next batch. */
export async function cleanGrinder(day: Day): Promise<void> {
  await day.keys.goTo('grinder', 4);
  await day.keys.pressOn('Record cleaning');
  await day.page.getByText('The cleaning is recorded.').waitFor();
}
