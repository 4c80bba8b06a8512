/** Save dialogs: each starts in the folder used last. */
import { homedir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { app, dialog, session, type BrowserWindow, type Session } from 'electron';
import { replaceFile } from '../src/book/file/partial-files.ts';
import { announce, showMessage } from './dialogs.ts';
import { logError, logEvent } from './log.ts';
import { noted, readNote, writeNote } from './note-file.ts';
import { text } from '../src/words/compiled/shell/dialogs.ts';

/**
 * Shows a save dialog for files that the window makes, such as tables and pictures. Call it once.
 * @param noteFile where the folder is stored between starts
 */
export function guardDownloads(noteFile: string, ours: Session = session.defaultSession): void {
  ours.on('will-download', (_event, item) => {
    item.setSaveDialogOptions({ title: text.save, defaultPath: placeFor(noteFile, item.getFilename()) });
    item.once('done', (_done, state) => {
      const path = item.getSavePath();
      if (state === 'completed') noteFolder(noteFile, path);
      if (state !== 'interrupted') return;
      logEvent('file-not-saved');
      void announce('error', text.notSaved({ path: path || item.getFilename() }));
    });
  });
}

/** Saves the window as a PDF, with the page's own paper size. */
export async function savePdf(window: BrowserWindow, noteFile: string): Promise<void> {
  let pdf: Buffer;
  try {
    pdf = await window.webContents.printToPDF({ preferCSSPageSize: true, printBackground: true });
  } catch (error) {
    logError('pdf-not-made', error);
    if (!window.isDestroyed()) await showMessage('error', text.pdfNotMade);
    return;
  }
  if (window.isDestroyed()) return; // closed during rendering
  const { canceled, filePath } = await dialog.showSaveDialog(window, {
    title: text.savePdf,
    defaultPath: placeFor(noteFile, text.pdfName({ day: localDay(new Date()) })),
    filters: [{ name: 'PDF', extensions: ['pdf'] }],
  });
  if (canceled || !filePath) return;
  try {
    replaceFile(filePath, pdf);
    noteFolder(noteFile, filePath);
  } catch (error) {
    logError('pdf-not-saved', error);
    await showMessage('error', text.notSaved({ path: filePath }));
  }
}

function placeFor(noteFile: string, name: string): string {
  return join(noted(readNote(noteFile), 'folder') ?? documents(), basename(name));
}

/** The documents folder. One redirected to a network share may have no path while that is offline. */
function documents(): string {
  try {
    return app.getPath('documents');
  } catch (error) {
    logError('no-documents-folder', error);
    return homedir();
  }
}

function noteFolder(noteFile: string, path: string): void {
  writeNote(noteFile, { folder: dirname(path) });
}

/** The local date as `YYYY-MM-DD`. */
function localDay(at: Date): string {
  return [at.getFullYear(), at.getMonth() + 1, at.getDate()]
    .map((part) => String(part).padStart(2, '0'))
    .join('-');
}
