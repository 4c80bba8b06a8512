import type { BrowserWindow } from 'electron';

/** After this time, ms, a window is shown whatever it contains: an empty one is better than none. */
const LATEST = 3_000;

/**
 * Shows a hidden window once, at the first sign that it has content. `ready-to-show` alone is not enough: under
 * Wayland a hidden window may never be drawn, and then that event never fires (electron/electron#48859, since
 * Electron 38).
 */
export function showOnceDrawn(window: BrowserWindow, maximized: boolean): void {
  let shown = false;
  const show = () => {
    clearTimeout(latest);
    if (shown || window.isDestroyed()) return;
    shown = true;
    if (maximized) window.maximize();
    window.show();
  };
  const latest = setTimeout(show, LATEST);
  window.once('ready-to-show', show);
  window.webContents.once('did-finish-load', show);
  window.webContents.once('did-fail-load', show);
  window.once('closed', () => clearTimeout(latest));
}
