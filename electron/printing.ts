/** Printing: through the system's dialog, or labels straight to the printer that was chosen for them. */
import type { BrowserWindow, PrinterInfo, Size, WebContents } from 'electron';
import { announce, ask, tell } from './dialogs.ts';
import { logEvent } from './log.ts';
import { noted, readNote, writeNote } from './note-file.ts';
import { labelPrinterNotThere, NO_PRINTER, notPrinted } from './sentences.ts';

/**
 * Prints what the window shows, through the system's print dialog; a failure is said in words. Electron prints on A4 unless
 * it is told of the paper (electron/electron#49374).
 */
export async function printWindow(contents: WebContents): Promise<void> {
  contents.print({ usePrinterDefaultPageSize: true }, said);
}

/**
 * Prints the labels that the window shows on the chosen printer without asking, on the paper that they were laid out for: a
 * driver may stand on A4. Without a chosen printer the dialog asks.
 * @param paper what the page says that the printer feeds, millimetres
 * @param noteFile where the chosen printer is kept between starts
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
    contents.print(onPaper, said);
    return;
  }
  const printers = await contents.getPrintersAsync();
  if (contents.isDestroyed()) return; // its window was closed meanwhile
  if (!printers.some((printer) => printer.name === name)) {
    await tell('error', labelPrinterNotThere(name));
    return;
  }
  contents.print({ ...onPaper, silent: true, deviceName: name }, said);
}

/** A paper in the unit of Electron's page sizes, or null for what is none: 5 mm to 2 m a side. */
function inMicrons(paper: unknown): Size | null {
  const { width, height } = (paper ?? {}) as Partial<Record<'width' | 'height', unknown>>;
  return isSide(width) && isSide(height)
    ? { width: Math.round(width * 1000), height: Math.round(height * 1000) }
    : null;
}

function isSide(millimetres: unknown): millimetres is number {
  return typeof millimetres === 'number' && millimetres >= 5 && millimetres <= 2000;
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
  void announce('error', notPrinted(reason));
}
