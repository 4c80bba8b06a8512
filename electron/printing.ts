/** Printing: through the system's dialog, or labels straight to the printer that was chosen for them. */
import type { BrowserWindow, PrinterInfo, WebContents } from 'electron';
import { ask, tell } from './dialogs.ts';
import { logEvent } from './log.ts';
import { noted, readNote, writeNote } from './note-file.ts';
import { labelPrinterNotThere, NO_PRINTER, notPrinted } from './sentences.ts';

/** Prints what the window shows, through the system's print dialog; a failure is said in words. */
export function printWindow(contents: WebContents): void {
  contents.print({}, said);
}

/**
 * Prints the labels that the window shows on the chosen printer without asking, on the paper that is set in its
 * driver: label printers know their roll better than the page does. Without a chosen printer the dialog asks.
 * @param noteFile where the chosen printer is kept between starts
 */
export async function printLabels(contents: WebContents, noteFile: string): Promise<void> {
  const name = noted(readNote(noteFile), 'name');
  if (name === null) {
    printWindow(contents);
    return;
  }
  const printers = await contents.getPrintersAsync();
  if (!printers.some((printer) => printer.name === name)) {
    await tell('error', labelPrinterNotThere(name));
    return;
  }
  contents.print(
    { silent: true, deviceName: name, printBackground: true, usePrinterDefaultPageSize: true },
    said,
  );
}

/** Asks once which printer labels go to; the one used so far stands first. */
export async function chooseLabelPrinter(window: BrowserWindow, noteFile: string): Promise<void> {
  const printers = await window.webContents.getPrintersAsync();
  if (printers.length === 0) {
    await tell('info', NO_PRINTER);
    return;
  }
  const last = noted(readNote(noteFile), 'name');
  const sorted = printers.toSorted((a, b) => Number(b.name === last) - Number(a.name === last));
  const never = sorted.length;
  const choice = await ask(
    'Which printer prints the labels? They then go there without a question.',
    [...sorted.map(shownName), 'Ask each time', 'Leave it as it is'],
    never + 1,
  );
  if (choice === never) writeNote(noteFile, {});
  const chosen = sorted[choice];
  if (chosen) writeNote(noteFile, { name: chosen.name });
}

/** The system's name tells two alike apart. */
function shownName({ displayName, name }: PrinterInfo): string {
  return displayName && displayName !== name ? `${displayName} (${name})` : name;
}

function said(success: boolean, reason: string): void {
  if (success || /cancel/i.test(reason)) return;
  logEvent('not-printed');
  void tell('error', notPrinted(reason));
}
