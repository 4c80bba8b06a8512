import { nextTick } from 'vue';
import type { Box } from './sizes.ts';

/** Opens the print dialog, as soon as what is printed stands there in its own letters. */
export async function printPage(): Promise<void> {
  await drawn();
  window.print();
}

/**
 * Prints labels: in the desktop app straight on the printer that was chosen for them, else through the dialog.
 * @param paper what the printer feeds, millimetres
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
