import { nextTick } from 'vue';

/** Opens the print dialog, as soon as what is printed stands there in its own letters. */
export async function printPage(): Promise<void> {
  await nextTick();
  await document.fonts.ready;
  window.print();
}
