/** A desk that answers a window nothing until the test lets it, however busy the computer is. */
import type { Locator, Page } from 'playwright-core';

export interface SlowDesk {
  /** What the window says while it waits. */
  sign: Locator;
  /** The calls by name since it was held. */
  calls: string[];
  /** From now on the desk answers nothing. */
  hold(): void;
  /** Resolves at the first call that is held. */
  asked(): Promise<void>;
  letGo(): void;
}

export async function slowDesk(page: Page): Promise<SlowDesk> {
  const calls: string[] = [];
  let held: Promise<void> | null = null;
  let letGo = (): void => {};
  let asked: Promise<void> = Promise.resolve();
  let isAsked = (): void => {};
  await page.route('**/call/**', async (route) => {
    calls.push(new URL(route.request().url()).pathname.replace('/call/', ''));
    isAsked();
    await held;
    await route.continue();
  });
  return {
    sign: page.getByText('Working…'),
    calls,
    hold() {
      calls.length = 0;
      asked = new Promise((resolve) => (isAsked = resolve));
      held = new Promise((resolve) => {
        letGo = () => {
          held = null;
          resolve();
        };
      });
    },
    asked: () => asked,
    letGo: () => letGo(),
  };
}
