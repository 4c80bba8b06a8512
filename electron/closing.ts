/** Waits on quitting until the book is backed up and closed, and shows progress. */
import { BrowserWindow } from 'electron';
import { ask } from './dialogs.ts';
import { logEvent } from './log.ts';
import { WINDOW_ADDRESS } from './protocol.ts';
import { currentLanguage } from '../src/words/speech.ts';
import { text } from '../src/words/compiled/shell/notices.ts';
import { SAFE } from './windows.ts';

/** After this time, ms, a small window shows what is being waited for. */
const SHOW_AFTER = 700;
/** After this time, ms, the person is asked whether to keep waiting. */
const ASK_AFTER = 60_000;

/** Resolves when `closed` does, or when the person stops waiting; rejects when `closed` does. */
export async function waitForClosing(closed: Promise<void>): Promise<void> {
  let note: BrowserWindow | null = null;
  const shown = setTimeout(() => (note = showClosing()), SHOW_AFTER);
  try {
    while (!(await within(closed, ASK_AFTER))) {
      logEvent('closing-is-slow');
      if ((await ask(text.closingIsSlow, [text.keepWaiting, text.quitNow])) === 1) break;
    }
  } finally {
    clearTimeout(shown);
    (note as BrowserWindow | null)?.destroy();
  }
}

function showClosing(): BrowserWindow {
  const window = new BrowserWindow({
    width: 460,
    height: 200,
    resizable: false,
    closable: false,
    title: 'Gambrel',
    webPreferences: SAFE,
  });
  window.setProgressBar(2); // more than 1: indeterminate progress
  // A progress window that fails to load does not matter.
  window
    .loadURL(`${WINDOW_ADDRESS}closing.html?language=${currentLanguage()}`)
    .catch(() => logEvent('closing-note-not-loaded'));
  return window;
}

/** Whether `work` ends within so many milliseconds. */
async function within(work: Promise<void>, time: number): Promise<boolean> {
  let late: NodeJS.Timeout | undefined;
  const lateness = new Promise<false>((resolve) => (late = setTimeout(() => resolve(false), time)));
  try {
    return await Promise.race([work.then(() => true as const), lateness]);
  } finally {
    clearTimeout(late);
  }
}
