import type { Page } from 'playwright-core';

/** Between two keys of a barcode reader, in milliseconds. */
const READER_MS = 12;

/**
 * Sends a ticket as a barcode reader does, wherever the focus is, and times from its Enter until the animal stands
 * on the screen with its number entry, in milliseconds, measured by the window's own clock.
 */
export async function scanTicket(page: Page, ticket: string): Promise<number> {
  // A window behind another draws late.
  await page.bringToFront();
  const opened = page.evaluate(
    (wanted) =>
      new Promise<number>((resolve) => {
        let entered: number | null = null;
        const onKey = (event: KeyboardEvent): void => {
          if (event.key === 'Enter') entered = performance.now();
        };
        window.addEventListener('keydown', onKey, true);
        const look = (): void => {
          const there =
            document.querySelector('h1')?.textContent?.includes(wanted) &&
            document.querySelector('main input[inputmode="decimal"]');
          if (entered === null || !there) return void requestAnimationFrame(look);
          window.removeEventListener('keydown', onKey, true);
          resolve(performance.now() - entered);
        };
        look();
      }),
    ticket,
  );
  await page.keyboard.type(ticket, { delay: READER_MS });
  await page.keyboard.press('Enter');
  return opened;
}
