/**
 * Whether a newer Gambrel is in a folder that the shop chose, such as a stick or a share. Nothing is checked until
 * a folder is chosen, and never over the internet: there is no server of ours.
 */
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { app, dialog, shell, type BrowserWindow } from 'electron';
import { text } from '../src/words/compiled/shell/dialogs.ts';
import { ask, showMessage } from './dialogs.ts';
import { logEvent } from './log.ts';
import { noted, readNote, writeNote } from './note-file.ts';
import { newestInstaller } from './installer-names.ts';

/** Asks whether and where to check; the choice is stored in `noteFile`. */
export async function chooseNewerVersions(window: BrowserWindow, noteFile: string): Promise<void> {
  const folder = noted(readNote(noteFile), 'folder');
  const now = folder ? text.looksIn({ folder }) : text.looksNowhere;
  const choice = await ask(`${now} ${text.whereToLook}`, [text.cancel, text.chooseFolder, text.stopLooking]);
  if (choice === 2) writeNote(noteFile, {});
  if (choice !== 1 || window.isDestroyed()) return;
  const { filePaths } = await dialog.showOpenDialog(window, {
    title: text.versionsFolder,
    properties: ['openDirectory'],
  });
  if (!filePaths[0]) return;
  writeNote(noteFile, { folder: filePaths[0] });
  if (!(await lookForNewer(noteFile))) await showMessage('info', text.noNewer({ folder: filePaths[0] }));
}

/** Checks once, if a folder was chosen; true when a newer version was found and reported. */
export async function lookForNewer(noteFile: string): Promise<boolean> {
  const folder = noted(readNote(noteFile), 'folder');
  if (!folder) return false;
  let names: string[];
  try {
    names = await readdir(folder);
  } catch {
    logEvent('versions-folder-away'); // a missing stick is not reported
    return false;
  }
  const newest = newestInstaller(names, process.platform, app.getVersion());
  if (!newest) return false;
  const message = text.newer({ version: newest.version, folder, current: app.getVersion() });
  if ((await ask(message, [text.later, text.showFile])) === 1)
    shell.showItemInFolder(join(folder, newest.file));
  return true;
}
