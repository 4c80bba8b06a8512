/** Takes screenshots into the folder that an environment variable names, outside the repository. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { OLD_SCREEN } from './look-at.ts';

interface PictureWay {
  sizes: readonly (readonly [width: number, height: number])[];
  /** The whole page instead of the visible part. */
  fullPage: boolean;
}

/** Takes the window in each size, light and dark, and restores it. Does nothing without a folder. */
export async function keepPictures(
  page: Page,
  folder: string | undefined,
  name: string,
  { sizes, fullPage }: PictureWay,
): Promise<void> {
  if (!folder) return;
  mkdirSync(folder, { recursive: true });
  for (const [width, height] of sizes)
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme });
      await page.screenshot({ path: join(folder, `${name}-${width}-${colorScheme}.png`), fullPage });
    }
  await page.setViewportSize(OLD_SCREEN);
  await page.emulateMedia({ colorScheme: null });
}
