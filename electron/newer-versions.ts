/**
 * Whether a newer Gambrel is in a folder that the shop chose, such as a stick or a share. Nothing is checked until
 * a folder is chosen, and never over the internet: there is no server of ours.
 */
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { app, dialog, shell, type BrowserWindow } from 'electron';
import { ask, showMessage } from './dialogs.ts';
import { logEvent } from './log.ts';
import { noted, readNote, writeNote } from './note-file.ts';
import { newestInstaller } from './installer-names.ts';

/** Asks whether and where to check; the choice is stored in `noteFile`. */
export async function chooseNewerVersions(window: BrowserWindow, noteFile: string): Promise<void> {
  const folder = noted(readNote(noteFile), 'folder');
  const now = folder
    ? `Gambrel looks in ${folder} when it starts.`
    : 'Gambrel does not look for newer versions.';
  const choice = await ask(
    `${now} It can look in a folder of yours, such as a stick or a shared drive, and never on the internet.`,
    ['Leave it so', 'Choose a folder…', 'Do not look'],
  );
  if (choice === 2) writeNote(noteFile, {});
  if (choice !== 1 || window.isDestroyed()) return;
  const { filePaths } = await dialog.showOpenDialog(window, {
    title: 'Where do newer versions lie?',
    properties: ['openDirectory'],
  });
  if (!filePaths[0]) return;
  writeNote(noteFile, { folder: filePaths[0] });
  if (!(await lookForNewer(noteFile)))
    await showMessage('info', `No version newer than this one lies in ${filePaths[0]}.`);
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
  const message = `Gambrel ${newest.version} lies in ${folder}; this is ${app.getVersion()}. Quit Gambrel, then start the installer there. The book stays where it is.`;
  if ((await ask(message, ['Later', 'Show it'])) === 1) shell.showItemInFolder(join(folder, newest.file));
  return true;
}
