/** Where files go that a person saves: asked each time, in the folder that was used last. */
import { homedir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { app, dialog, session, type BrowserWindow, type Session } from 'electron';
import { replaceFile } from '../src/book/file/partial-files.ts';
import { announce, tell } from './dialogs.ts';
import { logError, logEvent } from './log.ts';
import { noted, readNote, writeNote } from './note-file.ts';
import { notPrinted, notSaved } from './sentences.ts';

/**
 * Files that the window makes itself, such as tables and pictures: the system asks where they go. Call it once.
 * @param noteFile where the folder is kept between starts
 */
export function guardDownloads(noteFile: string, ours: Session = session.defaultSession): void {
  ours.on('will-download', (_event, item) => {
    item.setSaveDialogOptions({ title: 'Save', defaultPath: placeFor(noteFile, item.getFilename()) });
    item.once('done', (_done, state) => {
      const path = item.getSavePath();
      if (state === 'completed') noteFolder(noteFile, path);
      if (state !== 'interrupted') return;
      logEvent('file-not-saved');
      void announce('error', notSaved(path || item.getFilename()));
    });
  });
}

/** Saves what the window shows as a PDF, on the paper that the page itself asks for. */
export async function savePdf(window: BrowserWindow, noteFile: string): Promise<void> {
  let pdf: Buffer;
  try {
    pdf = await window.webContents.printToPDF({ preferCSSPageSize: true, printBackground: true });
  } catch (error) {
    logError('pdf-not-made', error);
    if (!window.isDestroyed()) await tell('error', notPrinted('the page could not be made into a PDF'));
    return;
  }
  if (window.isDestroyed()) return; // closed while the page was made
  const { canceled, filePath } = await dialog.showSaveDialog(window, {
    title: 'Save as PDF',
    defaultPath: placeFor(noteFile, `Gambrel ${localDay(new Date())}.pdf`),
    filters: [{ name: 'PDF', extensions: ['pdf'] }],
  });
  if (canceled || !filePath) return;
  try {
    replaceFile(filePath, pdf);
    noteFolder(noteFile, filePath);
  } catch (error) {
    logError('pdf-not-saved', error);
    await tell('error', notSaved(filePath));
  }
}

function placeFor(noteFile: string, name: string): string {
  return join(noted(readNote(noteFile), 'folder') ?? documents(), basename(name));
}

/** Where people keep their papers. A folder that was redirected to a share may have no name while that is away. */
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

/** `YYYY-MM-DD` on this computer's own calendar. */
function localDay(at: Date): string {
  return [at.getFullYear(), at.getMonth() + 1, at.getDate()]
    .map((part) => String(part).padStart(2, '0'))
    .join('-');
}
