/** An opening day in a window, at the pace of a person: every animal typed in at Intake, later scanned, weighed and packed. */
import type { Page } from 'playwright-core';
import type { Keys } from '../e2e/keys.ts';
import { scanTicket } from './open-ticket.ts';
import { stopwatch, type Stopwatch } from './stopwatch.ts';
import type { Visitor } from './visitors.ts';

export interface WindowDay {
  watch: Stopwatch;
  tickets: string[];
  /** From the barcode's Enter to the animal on the screen, in milliseconds. */
  opened: number[];
}

const SEX = { male: 'Buck', female: 'Doe' } as const;
const BROUGHT: Readonly<Partial<Record<Visitor['brought'], string>>> = {
  whole: 'Hide on',
  skinned: 'Skinned',
};

/** Deer that come whole or skinned: the same few screens for each. */
export function deerOnly(visitors: readonly Visitor[]): Visitor[] {
  return visitors.filter(
    ({ species, brought, sample }) =>
      (species === 'white-tail' || species === 'mule-deer') && BROUGHT[brought] !== undefined && !sample,
  );
}

export async function replayInWindow(
  { page, keys }: { page: Page; keys: Keys },
  visitors: readonly Visitor[],
): Promise<WindowDay> {
  const watch = stopwatch();
  const tickets: string[] = [];
  const opened: number[] = [];
  await keys.goTo('intake', 2);
  for (const visitor of visitors)
    tickets.push(await watch.time(visitor.tag, 'taken in', () => takeIn(page, keys, visitor)));
  await keys.goTo('rail', 1);
  for (const [i, visitor] of visitors.entries())
    await watch.time(visitor.tag, 'weighed and packed', async () => {
      opened.push(await scanTicket(page, tickets[i] ?? ''));
      await cutAndPack(page, keys, visitor);
    });
  return { watch, tickets, opened };
}

/** How long a scanned animal took to stand on the screen. */
export function openingTable(opened: readonly number[]): string {
  const sorted = opened.toSorted((a, b) => a - b);
  const at = (share: number): string =>
    (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0).toFixed(0);
  return `from the barcode's Enter to the animal on the screen, ms: median ${at(0.5)}, 95 % ${at(0.95)}, longest ${at(1)}`;
}

async function takeIn(page: Page, keys: Keys, visitor: Visitor): Promise<string> {
  await keys.fill('Name or phone number', visitor.hunter.name);
  await keys.fill('Phone', visitor.hunter.phone);
  await keys.choose('Species', visitor.speciesName);
  await keys.choose('Sex', SEX[visitor.sex]);
  await keys.choose('Came in as', BROUGHT[visitor.brought] ?? 'Skinned');
  await keys.fill('Weight received', visitor.receivedLb);
  await keys.fill('Tag or permit', visitor.tag);
  await keys.press('Control+Enter');
  const ticket = page
    .locator('main')
    .getByText(/^\d\d-\d{4}$/)
    .first();
  await ticket.waitFor();
  const given = (await ticket.innerText()).trim();
  await keys.pressOn('Next animal');
  await page.getByRole('combobox', { name: 'Name or phone number' }).waitFor();
  return given;
}

/** Scanned already: hanging weight, steaks, what was ground, and one key to say that it is packed. */
async function cutAndPack(page: Page, keys: Keys, { hangingLb, partsLb, brought }: Visitor): Promise<void> {
  const kept = page.getByRole('table', { name: 'Weights of this animal' });
  // A whole animal was skinned and hung since it came in.
  const weights = [hangingLb, partsLb['whole cuts'], partsLb.trim].filter((typed) => typed !== null);
  if (brought !== 'whole' && brought !== 'skinned') throw new Error(`A deer brought ${brought}`);
  for (const typed of weights) {
    await keys.type(typed);
    await keys.press('Enter');
    await kept.getByText(`${typed} lb`).first().waitFor();
  }
  await keys.press('r');
  await page.getByRole('button', { name: 'Back to packing' }).waitFor();
}
