/** The desktop app from ready to quit: one desk, one window, and the handling of their failures. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { app, dialog, ipcMain, powerMonitor, shell, type BrowserWindow } from 'electron';
import { DESK_PORT_CHANNEL, LANGUAGE_CHANNEL, PRINT_LABELS_CHANNEL } from '../src/bridge/wire.ts';
import { waitForClosing } from './closing.ts';
import { DESK_NAME } from './desk-messages.ts';
import { startDeskProcess, type DeskProcess, type Opened } from './desk-process.ts';
import { announce, showMessage } from './dialogs.ts';
import { takeLanguage } from './language.ts';
import { logError, logEvent, logFile } from './log.ts';
import { setMenu, type MenuActions } from './menu.ts';
import { chooseNewerVersions, lookForNewer } from './newer-versions.ts';
import { makeCrashLimit } from './crash-limit.ts';
import { chooseLabelPrinter, printLabels, printWindow } from './printing.ts';
import { isOurs, WINDOW_ADDRESS } from './protocol.ts';
import { noteRecent, readRecent } from './recent-books.ts';
import { savePdf } from './saving.ts';
import { text as dialogs } from '../src/words/compiled/shell/dialogs.ts';
import { text } from '../src/words/compiled/shell/notices.ts';
import { closeWhenSessionEnds } from './session-end.ts';
import { runInTurn } from './run-in-turn.ts';
import { focusWindow, loadPage, openWindow } from './windows.ts';

interface Places {
  /** The built desk program and the built preload. */
  desk: string;
  preload: string;
  /** Cache of the generated demo. */
  demo: string;
  /** The settings file of this name. */
  note(name: string): string;
}

export interface Desktop {
  /** Brings the window to the front, and opens the given book, if any. */
  comeBack(book?: string): void;
}

/** Opens the book, then the window. */
export async function openDesktop(places: Places, first: Opened): Promise<Desktop> {
  let window: BrowserWindow | null = null;
  let open = first;
  const onceTooOften = makeCrashLimit();
  let desk = startDeskProcess(places.desk, places.demo, onStopped);
  /** Opening, changing and closing books are queued, so that no desk is orphaned. */
  const inTurn = runInTurn();

  app.on('window-all-closed', () => app.quit());
  let end: 'not yet' | 'closing' | 'closed' = 'not yet';
  app.on('will-quit', (event) => {
    if (end === 'closed') return;
    event.preventDefault();
    if (end === 'closing') return;
    end = 'closing';
    void waitForClosing(inTurn(() => desk.close()))
      .catch((error: unknown) => logError('not-closed', error))
      .then(() => {
        end = 'closed';
        logEvent('ended');
        // Deferred until Electron has processed the refusal above: until then it ignores another quit.
        setImmediate(() => app.quit());
      });
  });
  closeWhenSessionEnds(places.note('closed'), (backUp, doneFile) => desk.closeNow(backUp, doneFile));
  endWithSystem();
  let memoryRanOut = false;
  app.on('child-process-gone', (_event, { type, reason, name }) => {
    if (!['clean-exit', 'killed'].includes(reason))
      logEvent('process-stopped', { type: type.replaceAll(' ', '-'), reason });
    if (name === DESK_NAME && reason === 'oom') memoryRanOut = true;
  });
  ipcMain.on(DESK_PORT_CHANNEL, (event) => {
    // Only our own page gets a port; the frame is null when it is already gone.
    if (isOurs(event.senderFrame?.url)) desk.connectWindow(event.sender);
  });
  ipcMain.on(PRINT_LABELS_CHANNEL, (event, paper: unknown) => {
    if (isOurs(event.senderFrame?.url))
      attempt(printLabels(event.sender, paper, places.note('label-printer')));
  });
  ipcMain.on(LANGUAGE_CHANNEL, (event, said: unknown) => {
    if (isOurs(event.senderFrame?.url) && takeLanguage(said, places.note('language')))
      setMenu(actions, readRecent(places.note('recent-books')));
  });
  const actions: MenuActions = {
    openBook: () => window && attempt(askForBook(window)),
    openRecent: (path) => attempt(openBook(path)),
    backUp: () => attempt(backUp(desk)),
    savePdf: () => window && attempt(savePdf(window, places.note('saving'))),
    print: () => window && attempt(printWindow(window.webContents)),
    chooseLabelPrinter: () => window && attempt(chooseLabelPrinter(window, places.note('label-printer'))),
    newerVersions: () => window && attempt(chooseNewerVersions(window, places.note('newer-versions'))),
    showLog: () => shell.showItemInFolder(logFile() ?? places.note('window')),
    settings: () => window && attempt(loadPage(window, `${WINDOW_ADDRESS}#/shop`)),
    handbook: () => window && attempt(loadPage(window, `${WINDOW_ADDRESS}#/handbook`)),
    about: () => window && attempt(loadPage(window, `${WINDOW_ADDRESS}#/about`)),
  };
  setMenu(actions, readRecent(places.note('recent-books')));
  await inTurn(begin);
  attempt(lookForNewer(places.note('newer-versions')));
  return {
    comeBack(other) {
      if (window) focusWindow(window);
      if (other) attempt(openBook(other));
    },
  };

  /**
   * Opens the book and shows it; false when the desk stopped meanwhile, so that another one starts instead, or when
   * the program ends.
   */
  async function begin(): Promise<boolean> {
    if (!(await desk.open(open))) return false;
    if (end !== 'not yet') return false; // quitting is queued: no window opens before it
    if (!open.demo && existsSync(open.book))
      setMenu(actions, noteRecent(places.note('recent-books'), open.book));
    if (window) {
      window.webContents.reload();
    } else {
      window = openWindow(places.preload, places.note('window'));
      window.on('closed', () => (window = null));
    }
    return true;
  }

  async function askForBook(over: BrowserWindow): Promise<void> {
    const { filePaths } = await dialog.showOpenDialog(over, {
      title: dialogs.openBook,
      defaultPath: join(open.book, '..'),
      filters: [{ name: dialogs.books, extensions: ['gambrel'] }],
      properties: ['openFile'],
    });
    if (filePaths[0]) await openBook(filePaths[0]);
  }

  /** Closes the open book, with its backup, and opens another; a missing one changes nothing. */
  async function openBook(path: string): Promise<void> {
    if (!existsSync(path)) {
      await showMessage('error', text.bookNotThere({ path }));
      return;
    }
    await inTurn(async () => {
      if (end !== 'not yet' || (path === open.book && !open.demo)) return;
      await desk.close();
      open = { book: path, named: true, demo: false };
      desk = startDeskProcess(places.desk, places.demo, onStopped);
      await begin();
    });
  }

  function onStopped(outOfMemory: boolean): void {
    if (onceTooOften()) {
      void announce('error', text.deskKeepsStopping).then(() => app.exit(1));
      return;
    }
    // Immediately and not queued: the next in the queue must not find an ended desk.
    desk = startDeskProcess(places.desk, places.demo, onStopped);
    const againAndSaid = async () => {
      if (!(await inTurn(begin))) return;
      // The system may report the reason only after the process ended.
      const memory = outOfMemory || memoryRanOut;
      memoryRanOut = false;
      await showMessage('warning', memory ? text.deskOutOfMemory : text.deskStopped);
    };
    attempt(againAndSaid());
  }
}

/** Reports work that failed without a message of its own. */
function attempt(work: Promise<unknown>): void {
  work.catch((error: unknown) => {
    logError('not-done', error);
    return announce('error', text.notDone);
  });
}

/**
 * Quits when Linux or macOS shuts down; the system waits a little for programs that ask. On Windows the windows
 * receive the event.
 */
function endWithSystem(): void {
  const quit = (event: { preventDefault(): void }) => {
    event.preventDefault();
    app.quit();
  };
  // Electron's types omit the event that its documentation describes.
  powerMonitor.on('shutdown', quit as () => void);
}

async function backUp(desk: DeskProcess): Promise<void> {
  const path = await desk.backUp();
  if (path) await showMessage('info', text.backedUp({ path }));
  else await showMessage('error', text.notBackedUp);
}
