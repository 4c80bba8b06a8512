/** What hands do at a station: with gloves on the pad, or at a keyboard. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { photoOf } from '../../photo-of.ts';
import type { FloorStation } from './floor.ts';

export type Hands = 'touch' | 'keys';

/** Presses the keys of the pad. */
export async function press(page: Page, keys: string): Promise<void> {
  const pad = page.getByRole('group', { name: 'Number keys' });
  for (const key of keys) await pad.getByRole('button', { name: key, exact: true }).tap();
}

/** An entry is emptied once it stands on the device. */
const isKept = (page: Page) => expect.poll(() => page.locator('.entry input').inputValue()).toBe('');

export const choose = (page: Page, name: string) =>
  page.locator('label').filter({ hasText: name }).first().tap();

async function chooseByKeys(page: Page, name: string): Promise<void> {
  await page.locator('label').filter({ hasText: name }).first().locator('input').focus();
  await page.keyboard.press('Space');
}

/** In the page: what has the focus. */
const focused = (): string => {
  const { activeElement } = document;
  return activeElement?.matches('.entry input') ? 'the entry' : (activeElement?.outerHTML ?? 'nothing');
};

/** Types into the entry that has the focus by itself, and Enter. */
async function typeIn(page: Page, text: string): Promise<void> {
  await expect.poll(() => page.evaluate(focused), { timeout: 30_000 }).toBe('the entry');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

/** Checks an animal in, up to the press that saves it. */
export async function checkIn({ page }: FloorStation, hands: Hands, hunter: string, weight: string) {
  const find = page.getByRole('combobox').first();
  if (hands === 'touch') {
    await find.fill(hunter);
    for (const name of ['Mule deer', 'Buck', 'Skinned']) await choose(page, name);
    await press(page, weight);
    await page.getByRole('button', { name: 'Check in' }).tap();
    return;
  }
  await find.focus();
  await page.keyboard.type(hunter);
  for (const name of ['Mule deer', 'Buck', 'Skinned']) await chooseByKeys(page, name);
  await page.getByRole('textbox', { name: 'Weight received' }).focus();
  await page.keyboard.type(weight);
  await page.keyboard.press('Enter');
}

/** The ticket to write on the tag, once the book has given one; then the form is empty for the next animal. */
export async function ticketOf({ page }: FloorStation): Promise<string> {
  const ticket = await page.locator('.figure', { hasText: /^\d+-\d+$/ }).innerText();
  await page.getByRole('button', { name: 'Next animal' }).tap();
  return ticket;
}

/** Opens an animal at the Table by the last digits of its ticket. */
export async function openTicket({ page }: FloorStation, hands: Hands, ticket: string): Promise<void> {
  const running = String(Number(ticket.split('-').at(-1)));
  if (hands === 'touch') {
    await press(page, running);
    await page.getByRole('button', { name: 'Open', exact: true }).tap();
  } else await typeIn(page, running);
  await page.getByRole('heading', { name: ticket }).waitFor();
  await page.locator('[data-cautions]').getByRole('button', { name: 'Hide' }).tap();
  await page.locator('.entry input').focus();
}

/** Weighs a part at the Table; without one what is asked for next. */
export async function weigh(
  { page }: FloorStation,
  hands: Hands,
  weight: string,
  part?: string,
): Promise<void> {
  if (part) {
    // Not each animal is weighed in parts unasked.
    await choose(page, 'Parts');
    await choose(page, part);
  }
  if (hands === 'touch') {
    await press(page, weight);
    await page.getByRole('button', { name: 'Save', exact: true }).tap();
  } else await typeIn(page, weight);
  await isKept(page);
}

/** Plans a batch of the trim of these animals and starts it. */
export async function startBatch({ page }: FloorStation, tickets: readonly string[]): Promise<void> {
  for (const ticket of tickets) await page.locator('.waiting label', { hasText: ticket }).tap();
  await page.getByRole('button', { name: 'Start this batch' }).tap();
  await page.getByText('Fat as weighed in').waitFor();
}

/** Weighs in the trim of an animal. */
export async function weighIn({ page }: FloorStation, ticket: string, weight: string): Promise<void> {
  await choose(page, ticket);
  await press(page, weight);
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  await isKept(page);
}

/** One pass through the grinder. @param atSave just before the press that saves it */
export async function grind(
  { page }: FloorStation,
  plate: string,
  degrees: string,
  atSave: () => void = () => undefined,
): Promise<void> {
  await choose(page, 'Grind');
  await page.getByRole('textbox', { name: 'Plate' }).fill(plate);
  await press(page, degrees);
  atSave();
  await page.getByRole('button', { name: 'Add this pass' }).tap();
  await isKept(page);
}

/** Weighs the packages of the open batch together and finishes it. */
export async function packAndFinish({ page }: FloorStation, weight: string, count: string): Promise<void> {
  await choose(page, 'Pack');
  await page.getByRole('textbox', { name: 'Freezer spot' }).fill('Shelf A');
  await press(page, weight);
  await choose(page, 'Packages');
  await page.locator('.entry input').fill(count);
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  await isKept(page);
  await page.getByRole('button', { name: 'Finish this batch' }).tap();
  await page.getByText('This batch is finished.').waitFor();
}

/** Takes an animal from the table to the shelf. */
export async function setReady({ page }: FloorStation): Promise<void> {
  for (const name of ['Finished cutting', 'Packed, ready for pickup'])
    await page.getByRole('button', { name, exact: true }).tap();
  await page.getByRole('button', { name: 'Back to packing' }).waitFor();
}

/** Finds a hunter's animal at the pickup window and hands it over. */
export async function handOver({ page }: FloorStation, hunter: string, ticket: string): Promise<void> {
  await page.getByRole('searchbox', { name: 'Hunter or ticket' }).fill(hunter);
  await page.getByText('Shelf A', { exact: true }).waitFor();
  await page.getByRole('button', { name: 'Hand over', exact: true }).tap();
  await page.getByText(`${ticket} was handed to ${hunter}.`).waitFor();
  await page.getByRole('button', { name: 'OK', exact: true }).tap();
}

/** Photographs what is on the screen. @param what as on its button; @param seed another number, another picture */
export async function photograph({ page }: FloorStation, what: string, seed: number): Promise<void> {
  const photos = page.locator('.photos-card .photos img');
  const before = await photos.count();
  const buffer = Buffer.from(photoOf(seed, 640, 320));
  await page
    .getByLabel(`Photograph ${what}`)
    .setInputFiles({ name: 'camera.jpg', mimeType: 'image/jpeg', buffer });
  await expect.poll(() => photos.count()).toBe(before + 1);
}
