/** Printing: through the system's dialog, or labels directly to the chosen printer. */
import type { BrowserWindow, PrinterInfo, Size, WebContents } from 'electron';
import { announce, ask, showMessage } from './dialogs.ts';
import { logEvent } from './log.ts';
import { noted, readNote, writeNote } from './note-file.ts';
import { text } from '../src/words/compiled/shell/dialogs.ts';

/**
 * Prints the window through the system's print dialog and reports failures. Electron defaults to A4 unless a paper
 * size is given (electron/electron#49374).
 */
export async function printWindow(contents: WebContents): Promise<void> {
  contents.print({ usePrinterDefaultPageSize: true }, reportPrinted);
}

/**
 * Prints the window's labels on the chosen printer without a dialog, on the paper that they were laid out for,
 * because a driver may default to A4. Without a chosen printer the dialog is shown.
 * @param paper the printer's paper according to the page, millimeters
 * @param noteFile where the chosen printer is stored between starts
 */
export async function printLabels(contents: WebContents, paper: unknown, noteFile: string): Promise<void> {
  const pageSize = inMicrons(paper);
  if (!pageSize) {
    logEvent('paper-not-known');
    await printWindow(contents);
    return;
  }
  const onPaper = { pageSize, margins: { marginType: 'none' }, printBackground: true } as const;
  const name = noted(readNote(noteFile), 'name');
  if (name === null) {
    contents.print(onPaper, reportPrinted);
    return;
  }
  const printers = await contents.getPrintersAsync();
  if (contents.isDestroyed()) return; // its window was closed meanwhile
  if (!printers.some((printer) => printer.name === name)) {
    await showMessage('error', text.labelPrinterNotThere({ name }));
    return;
  }
  contents.print({ ...onPaper, silent: true, deviceName: name }, reportPrinted);
}

/** Converts a paper size to the unit of Electron's page sizes, or null if invalid: 5 mm to 2 m a side. */
function inMicrons(paper: unknown): Size | null {
  const { width, height } = (paper ?? {}) as Partial<Record<'width' | 'height', unknown>>;
  return isSide(width) && isSide(height)
    ? { width: Math.round(width * 1000), height: Math.round(height * 1000) }
    : null;
}

function isSide(millimetres: unknown): millimetres is number {
  return typeof millimetres === 'number' && millimetres >= 5 && millimetres <= 2000;
}

/** Asks for the label printer; the current one is the first button. */
export async function chooseLabelPrinter(window: BrowserWindow, noteFile: string): Promise<void> {
  const printers = await window.webContents.getPrintersAsync();
  if (printers.length === 0) {
    await showMessage('info', text.noPrinter);
    return;
  }
  const last = noted(readNote(noteFile), 'name');
  const sorted = printers.toSorted((a, b) => Number(b.name === last) - Number(a.name === last));
  const never = sorted.length;
  const choice = await ask(
    text.whichPrinter,
    [...sorted.map(shownName), text.askEachTime, text.cancel],
    never + 1,
  );
  if (choice === never) writeNote(noteFile, {});
  const chosen = sorted[choice];
  if (chosen) writeNote(noteFile, { name: chosen.name });
}

/** The system's name distinguishes printers with equal display names. */
function shownName({ displayName, name }: PrinterInfo): string {
  return displayName && displayName !== name ? text.printerNamed({ shown: displayName, name }) : name;
}

function reportPrinted(success: boolean, reason: string): void {
  if (success || /cancel/i.test(reason)) return;
  logEvent('not-printed');
  void announce('error', text.notPrinted({ reason }));
}
