/** Ways that a practised person goes by keyboard from any place of the window. */
import type { Locator } from 'playwright-core';
import { keepPictures } from '../keep-pictures.ts';
import type { Day } from './open-day.ts';
import type { Who } from './people.ts';

/** Tabs to a link and follows it. */
export async function follow({ page, keys }: Day, name: string | RegExp): Promise<void> {
  await keys.tabTo(page.getByRole('link', { name, exact: true }));
  await keys.press('Enter');
}

/** Opens an animal from any place, by its ticket in the find box. */
export async function openAnimal({ page, keys, tickets }: Day, who: Who): Promise<void> {
  await keys.press('Control+k');
  await keys.type(tickets[who]);
  await keys.press('Enter');
  await page.getByRole('heading', { level: 1, name: tickets[who], exact: true }).waitFor();
}

/** Opens the bill of an animal that is packed. */
export async function openBill(day: Day, who: Who): Promise<void> {
  await openAnimal(day, who);
  await follow(day, 'To the bill');
  await day.page.getByRole('heading', { level: 1, name: `Bill of ${day.tickets[who]}` }).waitFor();
}

/** The sheet that lies over the place. */
export const sheet = ({ page }: Day): Locator => page.getByRole('dialog');

/** Presses a button of the sheet that lies over the place. */
export async function pressInSheet(day: Day, name: string | RegExp): Promise<void> {
  await day.keys.tabTo(sheet(day).getByRole('button', { name, exact: true }));
  await day.keys.press('Enter');
}

/** Where pictures of the day are kept, if somebody wants to look at them. */
const PICTURES = process.env.DAY_PICTURES;
const SIZES = [[1366, 768], [1024, 768]] as const; // prettier-ignore

/** What the screen shows at this moment of the day. */
export const look = ({ page }: Day, moment: string): Promise<void> =>
  keepPictures(page, PICTURES, moment, { sizes: SIZES, fullPage: false });
