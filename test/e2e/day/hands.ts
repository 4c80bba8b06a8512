/** Keyboard shortcuts of an experienced user, from any page. */
import type { Locator } from 'playwright-core';
import { keepPictures } from '../keep-pictures.ts';
import type { Day } from './open-day.ts';
import type { Who } from './people.ts';

/** Tabs to a link and follows it. */
export async function follow({ page, keys }: Day, name: string | RegExp): Promise<void> {
  await keys.tabTo(page.getByRole('link', { name, exact: true }));
  await keys.press('Enter');
}

/** Opens an animal from any page, by its ticket in the find box. */
export async function openAnimal({ page, keys, tickets }: Day, who: Who): Promise<void> {
  await keys.press('Control+k');
  await keys.type(tickets[who]);
  await keys.press('Enter');
  await page.getByRole('heading', { level: 1, name: tickets[who], exact: true }).waitFor();
}

/** Opens the bill of a packed animal. */
export async function openBill(day: Day, who: Who): Promise<void> {
  await openAnimal(day, who);
  await follow(day, 'Open bill');
  await day.page.getByRole('heading', { level: 1, name: `Bill for ${day.tickets[who]}` }).waitFor();
}

/** The open dialog. */
export const sheet = ({ page }: Day): Locator => page.getByRole('dialog');

/** Presses a button of the open dialog. */
export async function pressInSheet(day: Day, name: string | RegExp): Promise<void> {
  await day.keys.tabTo(sheet(day).getByRole('button', { name, exact: true }));
  await day.keys.press('Enter');
}

/** Folder for screenshots of the day, if set. */
const PICTURES = process.env.DAY_PICTURES;
const SIZES = [[1366, 768], [1024, 768]] as const; // prettier-ignore

/** Takes a screenshot at this point of the day. */
export const look = ({ page }: Day, moment: string): Promise<void> =>
  keepPictures(page, PICTURES, moment, { sizes: SIZES, fullPage: false });
