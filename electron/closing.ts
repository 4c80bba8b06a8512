/** The end of the program: waits for the book to be backed up and closed, and shows that it does. */
import { BrowserWindow } from 'electron';
import { ask } from './dialogs.ts';
import { logEvent } from './log.ts';
import { WINDOW_ADDRESS } from './protocol.ts';
import { CLOSING_IS_SLOW } from './sentences.ts';
import { SAFE } from './windows.ts';

/** After so long, ms, a small window says what is being waited for: a person would start to wonder. */
const SHOW_AFTER = 700;
/** After so long, ms, the person is asked whether to go on waiting. */
const ASK_AFTER = 60_000;

/** Resolves when `closed` does, or when the person does not want to wait any longer. */
export async function waitForClosing(closed: Promise<void>): Promise<void> {
  let note: BrowserWindow | null = null;
  const shown = setTimeout(() => (note = showClosing()), SHOW_AFTER);
  while (!(await within(closed, ASK_AFTER))) {
    logEvent('closing-is-slow');
    if ((await ask(CLOSING_IS_SLOW, ['Keep waiting', 'Quit now'])) === 1) break;
  }
  clearTimeout(shown);
  (note as BrowserWindow | null)?.destroy();
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
  window.setProgressBar(2); // more than 1: it goes on, and nobody knows how long
  void window.loadURL(`${WINDOW_ADDRESS}closing.html`);
  return window;
}

/** Whether `work` ends within so many milliseconds. */
async function within(work: Promise<void>, time: number): Promise<boolean> {
  let late: NodeJS.Timeout | undefined;
  const lateness = new Promise<false>((resolve) => (late = setTimeout(() => resolve(false), time)));
  const inTime = await Promise.race([work.then(() => true as const), lateness]);
  clearTimeout(late);
  return inTime;
}
