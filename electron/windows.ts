import { app, BrowserWindow, screen, type WebPreferences } from 'electron';
import { announce, ask } from './dialogs.ts';
import { logError, logEvent } from './log.ts';
import { makeCrashLimit } from './crash-limit.ts';
import { WINDOW_ADDRESS } from './protocol.ts';
import { WINDOW_HANGS, WINDOW_KEEPS_STOPPING, WINDOW_NOT_LOADED, WINDOW_STOPPED } from './sentences.ts';
import { showOnceDrawn } from './show-window.ts';
import { readWindowPlace, SMALLEST, writeWindowPlace } from './window-place.ts';

/**
 * What a page may do, whichever window shows it. The sandbox is set for each window and not by `app.enableSandbox()`: that
 * call takes `--no-sandbox` off Chromium's command line after its first processes were started without a sandbox, so that
 * later ones crash, and `start-guard.ts` could not see that the switch was there.
 */
export const SAFE: WebPreferences = {
  contextIsolation: true,
  sandbox: true,
  nodeIntegration: false,
  webviewTag: false,
  spellcheck: false, // its dictionaries would be downloaded
};

/**
 * Opens the window, shown as soon as there is something to see.
 * @param preload path of the built preload
 * @param placeFile where its place is kept between starts
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
  window.on('session-end', keepPlace); // no window is closed then
  tellFailedLoads(window);
  startAgain(window);
  void loadPage(window, WINDOW_ADDRESS);
  return window;
}

/** What `did-fail-load` says of a page whose place another one took. */
const ABORTED = -3;

/** Says that the page is not there, whoever loaded it: a reload tells its caller nothing. */
function tellFailedLoads(window: BrowserWindow): void {
  window.webContents.on('did-fail-load', (_event, code, name, _address, isMainFrame) => {
    if (!isMainFrame || code === ABORTED) return;
    logEvent('page-not-loaded', { code: name || code });
    void announce('error', WINDOW_NOT_LOADED);
  });
}

/** Everything that was saved is with the desk, so a window that crashed or hangs simply starts again. */
function startAgain(window: BrowserWindow): void {
  const onceTooOften = makeCrashLimit();
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    if (reason === 'clean-exit' || window.isDestroyed()) return;
    logEvent('window-stopped', { reason });
    if (onceTooOften()) {
      void announce('error', WINDOW_KEEPS_STOPPING).then(() => app.quit());
      return;
    }
    window.webContents.reload();
    void announce('warning', WINDOW_STOPPED);
  });
  let asking = false;
  window.on('unresponsive', () => {
    if (asking) return; // it is said again for what is pressed meanwhile
    asking = true;
    logEvent('window-hangs');
    void ask(WINDOW_HANGS, ['Wait', 'Open the window again'])
      .then((choice) => {
        if (choice === 1 && !window.isDestroyed()) window.webContents.forcefullyCrashRenderer();
      })
      .catch((error: unknown) => logError('not-asked', error))
      .finally(() => (asking = false));
  });
}

/** Brings the window to the front: somebody started the program a second time. */
export function focusWindow(window: BrowserWindow): void {
  if (window.isMinimized()) window.restore();
  window.show();
  window.focus();
}

/** Loads a page into a window; that it could not be loaded is said by `tellFailedLoads`. */
export async function loadPage(window: BrowserWindow, address: string): Promise<void> {
  try {
    await window.loadURL(address);
  } catch (error) {
    // Closed while it loaded, or another page took its place: `ERR_ABORTED` (-3).
    if (window.isDestroyed() || (error as { code?: unknown }).code === 'ERR_ABORTED') return;
    logError('window-not-loaded', error);
  }
}
