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
  const watch = await page.evaluateHandle((wanted) => {
    let entered: number | null = null;
    const onKey = (event: KeyboardEvent): void => {
      if (event.key === 'Enter') entered = performance.now();
    };
    window.addEventListener('keydown', onKey, true);
    const opened = new Promise<number>((resolve) => {
      const look = (): void => {
        const there =
          document.querySelector('h1')?.textContent?.includes(wanted) &&
          document.querySelector('main input[inputmode="decimal"]');
        if (entered === null || !there) return void requestAnimationFrame(look);
        window.removeEventListener('keydown', onKey, true);
        resolve(performance.now() - entered);
      };
      look();
    });
    return { opened };
  }, ticket);
  await readBarcode(page, `${ticket}\r`);
  const took = await watch.evaluate(({ opened }) => opened);
  await watch.dispose();
  return took;
}

/** Sends keys with the times a reader sends them at, however late a busy computer delivers them. */
async function readBarcode(page: Page, keys: string): Promise<void> {
  const client = await page.context().newCDPSession(page);
  const begun = Date.now();
  const sent = [...keys].flatMap((text, i) => {
    const key = text === '\r' ? { key: 'Enter', code: 'Enter', windowsVirtualKeyCode: 13 } : { key: text };
    const timestamp = (begun + i * READER_MS) / 1000;
    return [
      client.send('Input.dispatchKeyEvent', { type: 'keyDown', text, timestamp, ...key }),
      client.send('Input.dispatchKeyEvent', { type: 'keyUp', timestamp, ...key }),
    ];
  });
  await Promise.all(sent);
  await client.detach();
}
