import { BrowserWindow } from 'electron';
import { WINDOW_ADDRESS } from './protocol.ts';
import { readWindowSize, SMALLEST, writeWindowSize } from './window-size.ts';

/**
 * Opens the window, shown once it is drawn.
 * @param preload path of the built preload
 * @param sizeFile where the size is kept between starts
 */
export function openWindow(preload: string, sizeFile: string): BrowserWindow {
  const { width, height, maximized } = readWindowSize(sizeFile);
  const window = new BrowserWindow({
    width,
    height,
    minWidth: SMALLEST.width,
    minHeight: SMALLEST.height,
    title: 'Gambrel',
    show: false,
    webPreferences: {
      preload,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      webviewTag: false,
      spellcheck: false, // its dictionaries would be downloaded
    },
  });
  window.once('ready-to-show', () => {
    if (maximized) window.maximize();
    window.show();
  });
  window.on('close', () => {
    writeWindowSize(sizeFile, { ...boundsOf(window), maximized: window.isMaximized() });
  });
  // Everything that was saved is with the desk, so a window that crashed simply starts again.
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    if (reason !== 'clean-exit') window.webContents.reload();
  });
  void window.loadURL(WINDOW_ADDRESS);
  return window;
}

/** Brings the window to the front: somebody started the program a second time. */
export function focusWindow(window: BrowserWindow): void {
  if (window.isMinimized()) window.restore();
  window.focus();
}

function boundsOf(window: BrowserWindow): { width: number; height: number } {
  const { width, height } = window.getNormalBounds();
  return { width, height };
}
