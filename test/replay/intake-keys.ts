/** How many keys and clicks an intake takes, counted by the window itself while it is typed as a practised person would. */
import type { Page } from 'playwright-core';
import type { ShopWindow } from '../e2e/shop-window.ts';

export interface IntakeCost {
  ticket: string;
  /** Keys that went down, Ctrl counted as one of them. */
  keys: number;
  clicks: number;
}

/** What somebody says and shows at the counter, for an animal of the species that came before. */
export interface AtTheCounter {
  /** Typed to find a hunter who was here before, or the name of a new one. */
  find: string;
  /** Of a new hunter. */
  phone?: string;
  sex: 'male' | 'female';
  brought: 'whole' | 'skinned';
  received: string;
  tag: string;
  /** As it is said and typed: `27`. */
  killed: string;
}

/** A piece of the animal with what becomes of it, as letters that pick it from its list (none: as it stands), and a size. */
export interface OwnCut {
  primal: string;
  as: string;
  size?: string;
}

/** A new hunter with a cut sheet of his own, who comes back later with another animal; both of them invented. */
export const NEW_HUNTER: AtTheCounter = {
  find: 'Amos Sandoval', phone: '307-555-0142', sex: 'male', brought: 'whole', received: '142.6',
  tag: 'M-40218', killed: 'yesterday',
}; // prettier-ignore
export const OWN_CUTS: readonly OwnCut[] = [
  { primal: 'Neck', as: 'r', size: '3' },
  { primal: 'Shoulder', as: '' },
  { primal: 'Loin and saddle', as: 's', size: '1' },
  { primal: 'Ribs and flank', as: '' },
  { primal: 'Hind leg', as: 's', size: '3/4' },
];
export const RETURNING: AtTheCounter = {
  find: '0142', sex: 'female', brought: 'skinned', received: '71.4', tag: 'M-40219', killed: '3',
}; // prettier-ignore

const SEX_KEY = { male: '1', female: '2' } as const;
const ADULT_KEY = '3';
const BROUGHT_KEY = { whole: '1', skinned: '2' } as const;

type Counted = Window & { counted?: { keys: number; clicks: number } };

/** Counts from now on: each key that goes down, each press of the mouse. */
export async function beginToCount(page: Page): Promise<void> {
  await page.evaluate(() => {
    const here = window as Counted;
    if (!here.counted) {
      addEventListener('keydown', ({ repeat }) => here.counted && !repeat && here.counted.keys++, true);
      addEventListener('pointerdown', () => here.counted && here.counted.clicks++, true);
    }
    here.counted = { keys: 0, clicks: 0 };
  });
}

/** What was counted since. */
export function countedOf(page: Page): Promise<{ keys: number; clicks: number }> {
  return page.evaluate(() => (window as Counted).counted ?? { keys: 0, clicks: 0 });
}

/** What has the focus: its label, or the legend of its group. */
function focused(page: Page): Promise<string> {
  return page.evaluate(() => {
    const at = document.activeElement as HTMLInputElement | null;
    const group = at?.type === 'radio' ? at.closest('fieldset')?.querySelector('legend') : null;
    return (
      (group ?? at?.labels?.[0])?.textContent?.trim() ?? at?.getAttribute('aria-label') ?? at?.tagName ?? ''
    );
  });
}

/** Waits until the field has the focus that a person would now type into. @throws naming what has it instead */
export async function at(page: Page, label: string | RegExp): Promise<void> {
  const fits = (name: string): boolean => (typeof label === 'string' ? name === label : label.test(name));
  let name = '';
  for (let i = 0; i < 100; i++) {
    name = await focused(page);
    if (fits(name)) return;
    await page.waitForTimeout(30);
  }
  throw new Error(`“${label}” should have the focus, “${name}” has it`);
}

/** Goes on with Enter, past what is not asked this time, until `label` has the focus. */
export async function enterTo(
  { page, keys }: Pick<ShopWindow, 'page' | 'keys'>,
  label: string,
): Promise<void> {
  for (let i = 0; i < 12; i++) {
    await keys.press('Enter');
    if ((await focused(page)) === label) return;
  }
  throw new Error(`Enter never came to “${label}”`);
}

/** The animal itself, from its sex to its tag and the day of its death. */
async function typeAnimal(shop: Pick<ShopWindow, 'page' | 'keys'>, said: AtTheCounter): Promise<void> {
  const { page, keys } = shop;
  await at(page, 'Sex');
  await keys.press(SEX_KEY[said.sex]);
  await at(page, 'Age');
  await keys.press(ADULT_KEY);
  await at(page, 'Came in as');
  await keys.press(BROUGHT_KEY[said.brought]);
  if (said.brought === 'whole') {
    await at(page, 'Lower legs');
    await keys.press('Enter');
  }
  await at(page, 'Weight received');
  await keys.type(said.received);
  await enterTo(shop, 'Tag or permit');
  await keys.type(said.tag);
  await enterTo(shop, 'Killed on');
  await keys.type(said.killed);
}

async function finish({ page, keys }: Pick<ShopWindow, 'page' | 'keys'>): Promise<IntakeCost> {
  await keys.press('Control+Enter');
  const shown = page.locator('main .ticket').filter({ hasText: /^\s*\d\d-\d{4}\s*$/ });
  await shown.first().waitFor();
  const ticket = (await shown.first().innerText()).trim();
  const counted = await countedOf(page);
  // On to the next animal, which is no longer this one's cost.
  await keys.pressOn('Next animal');
  await at(page, 'Name or phone number');
  return { ticket, ...counted };
}

/** A new hunter who says of each piece what becomes of it. */
export async function takeInNew(
  shop: Pick<ShopWindow, 'page' | 'keys'>,
  said: AtTheCounter,
  cuts: readonly OwnCut[],
): Promise<IntakeCost> {
  const { page, keys } = shop;
  await at(page, 'Name or phone number');
  await beginToCount(page);
  await keys.type(said.find);
  await keys.press('Enter');
  await at(page, 'Phone');
  await keys.type(said.phone ?? '');
  await enterTo(shop, 'Species');
  await keys.press('Enter');
  await typeAnimal(shop, said);
  await enterTo(shop, 'Start from');
  const piece = page.getByRole('radio', { name: 'Piece by piece' });
  await keys.press((await piece.getAttribute('aria-keyshortcuts')) ?? '');
  for (const { primal, as, size } of cuts) {
    await at(page, `Cut for ${primal}`);
    await keys.type(as);
    await keys.press('Enter');
    if (size === undefined) continue;
    await at(page, `Size of ${primal}`);
    await keys.type(size);
    await keys.press('Enter');
  }
  return finish(shop);
}

/** A hunter who was here before and wants it cut as last time. */
export async function takeInReturning(
  shop: Pick<ShopWindow, 'page' | 'keys'>,
  said: AtTheCounter,
): Promise<IntakeCost> {
  const { page, keys } = shop;
  await at(page, 'Name or phone number');
  await beginToCount(page);
  await keys.type(said.find);
  await keys.press('Enter');
  await at(page, /^Same cut sheet/);
  await keys.press('y');
  await typeAnimal(shop, said);
  return finish(shop);
}

/** The line that is printed of an intake. */
export function costLine(who: string, { keys, clicks }: IntakeCost): string {
  return `${who}: ${keys} keys, ${clicks} clicks`;
}
