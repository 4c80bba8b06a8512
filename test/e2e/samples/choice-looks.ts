import { PNG } from 'pngjs';
import type { Locator, Page } from 'playwright-core';

/** An option as somebody sees it who sees no hue. */
export interface GrayLook {
  /** Lightness of the fill near its edge, inside of every border: 0 to 255. */
  fill: number;
  /** Width of the dark border at the middle of the lower edge, in dots. */
  border: number;
  /** Dots on the option and around it that are clearly darker or lighter than its fill. */
  dark: number;
  bold: boolean;
}

/** A resting, a hovered, a focused and the chosen option of a group. */
export async function choiceLooks(
  page: Page,
  group: string,
): Promise<Record<'resting' | 'hovered' | 'focused' | 'chosen', GrayLook>> {
  const options = page.getByRole('group', { name: group, exact: true }).locator('label');
  const other = options.and(page.locator('label:not(.on)')).first();
  const away = async (): Promise<void> => {
    await page.mouse.move(0, 0);
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  };
  await other.scrollIntoViewIfNeeded();
  await away();
  const resting = await lookOf(page, other);
  const chosen = await lookOf(page, options.and(page.locator('.on')));
  await other.hover();
  const hovered = await lookOf(page, other);
  await away();
  // Focused by keyboard, without choosing.
  await page.keyboard.press('Shift');
  await other
    .locator('input')
    .evaluate((input) => (input as HTMLInputElement).focus({ focusVisible: true } as FocusOptions));
  const focused = await lookOf(page, other);
  await away();
  return { resting, hovered, focused, chosen };
}

const AROUND = 6;

async function lookOf(page: Page, option: Locator): Promise<GrayLook> {
  const box = await option.boundingBox();
  if (!box) throw new Error('The option is not drawn.');
  const clip = {
    x: box.x - AROUND,
    y: box.y - AROUND,
    width: box.width + 2 * AROUND,
    height: box.height + 2 * AROUND,
  };
  const picture = PNG.sync.read(await page.screenshot({ clip }));
  const gray = (x: number, y: number): number => {
    const at = (y * picture.width + x) * 4;
    const [r = 0, g = 0, b = 0] = picture.data.subarray(at, at + 3);
    return Math.round(0.2126 * r + 0.7152 * g + 0.0722 * b);
  };
  const inside = { x: Math.round(picture.width / 2), y: picture.height - AROUND - 8 };
  const fill = gray(inside.x, inside.y);
  const differs = (value: number): boolean => Math.abs(value - fill) > 24;
  let border = 0;
  for (let y = inside.y; y < picture.height; y++) if (differs(gray(inside.x, y))) border++;
  let dark = 0;
  for (let y = 0; y < picture.height; y++)
    for (let x = 0; x < picture.width; x++) if (differs(gray(x, y))) dark++;
  const bold = await option
    .locator('.label')
    .evaluate((label) => Number(getComputedStyle(label).fontWeight) >= 700);
  return { fill, border, dark, bold };
}
