import type { Page } from 'playwright-core';
import type { Keys } from './keys.ts';

/** Leaves the demo through its menu in the frame, by keyboard. */
export async function leaveDemo(keys: Keys): Promise<void> {
  await keys.pressOn(/^Demo/);
  await keys.pressOn('Leave the demo');
}

/** Signs what follows with these initials. */
export async function workAs(page: Page, initials: string): Promise<void> {
  await page
    .getByRole('group', { name: 'Who is working?' })
    .getByRole('button', { name: initials, exact: true })
    .click();
}
