import { app, BrowserWindow, screen, type WebPreferences } from 'electron';
import { announce, ask } from './dialogs.ts';
import { logError, logEvent } from './log.ts';
import { makeCrashLimit } from './crash-limit.ts';
import { WINDOW_ADDRESS } from './protocol.ts';
import { text } from '../src/words/compiled/shell/notices.ts';
import { showOnceDrawn } from './show-window.ts';
import { readWindowPlace, SMALLEST, writeWindowPlace } from './window-place.ts';

/**
 * The permissions of a page in any window. The sandbox is set for each window and not by `app.enableSandbox()`:
 * that call removes `--no-sandbox` from Chromium's command line after its first processes started without a
 * sandbox, so that later ones crash, and `start-guard.ts` could not detect the switch.
 */
export const SAFE: WebPreferences = {
  contextIsolation: true,
  sandbox: true,
  nodeIntegration: false,
  webviewTag: false,
  spellcheck: false, // its dictionaries would be downloaded
};

/**
 * Opens the window, shown as soon as it has content.
 * @param preload path of the built preload
 * @param placeFile where its bounds are stored between starts
 */
export function openWindow(preload: string, placeFile: string): BrowserWindow {
  const screens = screen.getAllDisplays().map(({ workArea }) => workArea);
  const { maximized, ...box } = readWindowPlace(placeFile, screens);
  const window = new BrowserWindow({
    ...box,
    minWidth: SMALLEST.width,
    minHeight: SMALLEST.height,
    title: 'Gambrel',
    show: false,
    webPreferences: { preload, ...SAFE },
  });
  showOnceDrawn(window, maximized);
  const keepPlace = () =>
    writeWindowPlace(placeFile, { ...window.getNormalBounds(), maximized: window.isMaximized() });
  window.on('close', keepPlace);
  window.on('session-end', keepPlace); // windows are not closed then
  tellFailedLoads(window);
  startAgain(window);
  void loadPage(window, WINDOW_ADDRESS);
  return window;
}

/** Error code of `did-fail-load` for a page that another one replaced. */
const ABORTED = -3;

/** Reports a page that failed to load, whoever loaded it: a reload has no caller. */
function tellFailedLoads(window: BrowserWindow): void {
  window.webContents.on('did-fail-load', (_event, code, name, _address, isMainFrame) => {
    if (!isMainFrame || code === ABORTED) return;
    logEvent('page-not-loaded', { code: name || code });
    void announce('error', text.windowNotLoaded);
  });
}

/** Everything saved is with the desk, so a crashed or unresponsive window simply reloads. */
function startAgain(window: BrowserWindow): void {
  const onceTooOften = makeCrashLimit();
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    if (reason === 'clean-exit' || window.isDestroyed()) return;
    logEvent('window-stopped', { reason });
    if (onceTooOften()) {
      void announce('error', text.windowKeepsStopping).then(() => app.quit());
      return;
    }
    window.webContents.reload();
    void announce('warning', text.windowStopped);
  });
  let asking = false;
  window.on('unresponsive', () => {
    if (asking) return; // one question at a time
    asking = true;
    logEvent('window-hangs');
    void ask(text.windowHangs, [text.wait, text.reopenWindow])
      .then((choice) => {
        if (choice === 1 && !window.isDestroyed()) window.webContents.forcefullyCrashRenderer();
      })
      .catch((error: unknown) => logError('not-asked', error))
      .finally(() => (asking = false));
  });
}

/** Brings the window to the front after a second start of the program. */
export function focusWindow(window: BrowserWindow): void {
  if (window.isMinimized()) window.restore();
  window.show();
  window.focus();
}

/** Loads a page into a window; `tellFailedLoads` reports failures. */
export async function loadPage(window: BrowserWindow, address: string): Promise<void> {
  try {
    await window.loadURL(address);
  } catch (error) {
    // Closed while loading, or replaced by another page: `ERR_ABORTED` (-3).
    if (window.isDestroyed() || (error as { code?: unknown }).code === 'ERR_ABORTED') return;
    logError('window-not-loaded', error);
  }
}
