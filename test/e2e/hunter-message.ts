import type { Page } from 'playwright-core';

/** The message to the hunter, once it is written: the hunter's language is asked for first. */
export async function messageToHunter(page: Page): Promise<string> {
  const box = page.getByRole('textbox', { name: 'Message to the hunter' });
  await page.waitForFunction(
    (area) => (area as HTMLTextAreaElement | null)?.value,
    await box.elementHandle(),
  );
  return box.inputValue();
}
