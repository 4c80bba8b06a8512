/** The desktop app from ready to quit: one desk, one window, and what happens when either fails. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { app, dialog, ipcMain, shell, type BrowserWindow } from 'electron';
import { DESK_PORT_CHANNEL, PRINT_LABELS_CHANNEL } from '../src/bridge/wire.ts';
import { waitForClosing } from './closing.ts';
import { startDeskProcess, type DeskProcess } from './desk-process.ts';
import { tell } from './dialogs.ts';
import { logEvent, logFile } from './log.ts';
import { setMenu, type MenuActions } from './menu.ts';
import { chooseNewerVersions, lookForNewer } from './newer-versions.ts';
import { countStops } from './often.ts';
import { chooseLabelPrinter, printLabels, printWindow } from './printing.ts';
import { isOurs, WINDOW_ADDRESS } from './protocol.ts';
import { noteRecent, readRecent } from './recent-books.ts';
import { savePdf } from './saving.ts';
import { bookNotThere, DESK_KEEPS_STOPPING, DESK_STOPPED } from './sentences.ts';
import { focusWindow, openWindow } from './windows.ts';

export interface Places {
  /** The built desk program and the built preload. */
  desk: string;
  preload: string;
  /** Where a demo that was made is kept. */
  demo: string;
  /** The file that a note of this name is kept in between starts. */
  note(name: string): string;
}

export interface Desktop {
  /** Brings the window to the front, and opens the book in it if one was given. */
  comeBack(book?: string): void;
}

/** Opens the book, then the window. */
export async function openDesktop(places: Places, book: string, demo: boolean): Promise<Desktop> {
  let window: BrowserWindow | null = null;
  let open = { book, demo };
  const onceTooOften = countStops();
  let desk = startDeskProcess(places.desk, places.demo, onStopped);
  /** Opening, changing and closing books take turns, so that no desk is left behind. */
  let turn = Promise.resolve();
  const inTurn = (work: () => Promise<void>) => (turn = turn.then(work));

  app.on('window-all-closed', () => app.quit());
  let end: 'not yet' | 'closing' | 'closed' = 'not yet';
  app.on('will-quit', (event) => {
    if (end === 'closed') return;
    event.preventDefault();
    if (end === 'closing') return;
    end = 'closing';
    void waitForClosing(inTurn(() => desk.close())).then(() => {
      end = 'closed';
      logEvent('ended');
      app.quit();
    });
  });
  ipcMain.on(DESK_PORT_CHANNEL, (event) => {
    // Only our own page gets a port; the frame is null when it went away meanwhile.
    if (isOurs(event.senderFrame?.url)) desk.connectWindow(event.sender);
  });
  ipcMain.on(PRINT_LABELS_CHANNEL, (event) => {
    if (isOurs(event.senderFrame?.url)) void printLabels(event.sender, places.note('label-printer'));
  });
  const actions: MenuActions = {
    openBook: () => window && void askForBook(window),
    openRecent: (path) => void openBook(path),
    backUp: () => void backUp(desk),
    savePdf: () => window && void savePdf(window, places.note('saving')),
    print: () => window && printWindow(window.webContents),
    chooseLabelPrinter: () => window && void chooseLabelPrinter(window, places.note('label-printer')),
    newerVersions: () => window && void chooseNewerVersions(window, places.note('newer-versions')),
    showLog: () => shell.showItemInFolder(logFile() ?? places.note('window')),
    about: () => void window?.loadURL(`${WINDOW_ADDRESS}#/about`),
  };
  setMenu(actions, readRecent(places.note('recent-books')));
  await inTurn(begin);
  void lookForNewer(places.note('newer-versions'));
  return {
    comeBack(other) {
      if (window) focusWindow(window);
      if (other) void openBook(other);
    },
  };

  async function begin(): Promise<void> {
    if (!(await desk.open(open.book, open.demo))) return; // it stopped, so another one begins in its place
    if (!open.demo) setMenu(actions, noteRecent(places.note('recent-books'), open.book));
    if (window) {
      window.webContents.reload();
    } else {
      window = openWindow(places.preload, places.note('window'));
      window.on('closed', () => (window = null));
    }
  }

  async function askForBook(over: BrowserWindow): Promise<void> {
    const { filePaths } = await dialog.showOpenDialog(over, {
      title: 'Open another book',
      defaultPath: join(open.book, '..'),
      filters: [{ name: 'Books of Gambrel', extensions: ['gambrel'] }],
      properties: ['openFile'],
    });
    if (filePaths[0]) await openBook(filePaths[0]);
  }

  /** Closes the open book, with its backup, and opens another; one that is not there leaves all as it is. */
  async function openBook(path: string): Promise<void> {
    if (!existsSync(path)) {
      await tell('error', bookNotThere(path));
      return;
    }
    await inTurn(async () => {
      if (end !== 'not yet' || (path === open.book && !open.demo)) return;
      await desk.close();
      open = { book: path, demo: false };
      desk = startDeskProcess(places.desk, places.demo, onStopped);
      await begin();
    });
  }

  function onStopped(): void {
    if (onceTooOften()) {
      void tell('error', DESK_KEEPS_STOPPING).then(() => app.exit(1));
      return;
    }
    // At once and not in turn: whoever has the next turn must not meet a desk that has ended.
    desk = startDeskProcess(places.desk, places.demo, onStopped);
    void inTurn(begin).then(() => tell('warning', DESK_STOPPED));
  }
}

async function backUp(desk: DeskProcess): Promise<void> {
  const path = await desk.backUp();
  if (path) await tell('info', `A checked backup was made: ${path}`);
  else await tell('error', 'No backup could be made: check that the disk has room and can be written.');
}
