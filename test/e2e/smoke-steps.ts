/** Steps of the smokehouse by keyboard. */
import type { ShopWindow } from './shop-window.ts';

/** Types into the focused field over what stands there. */
export async function over({ keys }: ShopWindow, text: string): Promise<void> {
  await keys.press('ControlOrMeta+a');
  await keys.type(text);
}

/** Opens the smokehouse at one of its tabs. */
export async function openTab(
  { keys, page }: ShopWindow,
  name: 'Today' | 'Batches' | 'Loads and logs' | 'Losses' | 'Recipes',
): Promise<void> {
  await keys.goTo('smokehouse', 5);
  await keys.tabTo(page.getByRole('tab', { name: 'Today' }));
  const tab = page.getByRole('tab', { name, exact: true });
  while ((await tab.getAttribute('aria-selected')) !== 'true') await keys.press('ArrowRight');
}

/** Adds a recipe to start from, which cannot start before the packet of its cure was read, and types 6.25% of nitrite. */
export async function addRecipe(shop: ShopWindow, name: string): Promise<void> {
  const { keys, page } = shop;
  await openTab(shop, 'Recipes');
  await page.getByRole('heading', { name: 'Recipes to start from' }).waitFor();
  await keys.pressOn(`Add ${name}`);
  await page.getByText('A batch can’t start until these are fixed.').waitFor();
  await keys.pressOn('Edit Cure with nitrite');
  await page.getByRole('dialog').waitFor();
  await keys.fill('Nitrite, %', '6.25');
  await keys.fill('Nitrate, %', '0');
  await keys.fill('Accelerator, %', '0');
  await keys.press('Enter');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
}

/** Opens a batch on the trim of these tickets, weighs it in at the grinder, and comes back to its sheet. */
export async function openBatch(
  shop: ShopWindow,
  recipe: string,
  trim: Readonly<Record<string, string>>,
): Promise<void> {
  const { keys, page } = shop;
  await openTab(shop, 'Batches');
  await keys.choose('Recipe', recipe);
  for (const ticket of Object.keys(trim)) {
    await keys.tabTo(page.getByRole('checkbox', { name: new RegExp(`^Trim of ${ticket}`) }));
    await keys.press('Space');
  }
  await keys.pressOn('Open batch');
  await page.getByText(/No meat is weighed in yet/).waitFor();
  await keys.pressOn(/^Open G/);
  const weigh = page
    .locator('section')
    .filter({ has: page.getByRole('heading', { name: 'Weigh in', exact: true }) });
  for (const typed of Object.values(trim)) {
    await keys.tabTo(weigh.getByRole('textbox').first());
    await over(shop, typed);
    await keys.press('Enter');
    await page.getByRole('table', { name: 'What went in' }).getByText(`${typed} lb`).first().waitFor();
  }
  await openTab(shop, 'Batches');
  await keys.tabTo(page.getByRole('table').getByRole('link').first());
  await keys.press('Enter');
}

/** Weighs out one ingredient after another as the sheet asks, the cure last and with the lot of its packet. */
export async function weighOut(
  { keys, page }: ShopWindow,
  grams: Readonly<Record<string, number>>,
  cure: number,
): Promise<void> {
  for (const [name, asked] of Object.entries(grams)) {
    await page.getByText(`${name}: ${asked} g`, { exact: true }).waitFor();
    await keys.fill('Weighed, g', String(asked));
    await keys.press('Enter');
  }
  await page.getByText(`Cure with nitrite: ${cure} g`, { exact: true }).waitFor();
  await keys.fill('Weighed, g', String(cure));
  await keys.press('Enter');
  await page.getByText('Type the lot number on the label of Cure with nitrite.').waitFor();
  await keys.fill('Lot', 'A-7');
  await keys.press('Enter');
  await page.getByText('Everything is weighed out.').waitFor();
}

/** Opens a load of the batch that waits for it. */
export async function openLoad(shop: ShopWindow, product: string, oven: string): Promise<void> {
  const { keys, page } = shop;
  await openTab(shop, 'Loads and logs');
  await keys.tabTo(page.getByRole('checkbox', { name: new RegExp(`${product}$`) }));
  await keys.press('Space');
  await keys.fill('Smokehouse', oven);
  await keys.pressOn('Open load');
  await page.getByRole('heading', { name: 'How it was cooked' }).waitFor();
}
