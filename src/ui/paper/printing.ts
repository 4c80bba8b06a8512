import { nextTick } from 'vue';
import type { Box } from './sizes.ts';

/** Opens the print dialog once the fonts are loaded. */
export async function printPage(): Promise<void> {
  await drawn();
  window.print();
}

/**
 * Prints labels: in the desktop app directly on the chosen label printer, otherwise through the dialog.
 * @param paper the printer's paper size, millimeters
 */
export async function printLabels({ width, height }: Box): Promise<void> {
  await drawn();
  if (window.gambrel) window.gambrel.printLabels({ width, height });
  else window.print();
}

async function drawn(): Promise<void> {
  await nextTick();
  await document.fonts.ready;
}
