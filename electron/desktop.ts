/** The desktop app from ready to quit: one desk, one window, and what happens when either fails. */
import { app, ipcMain, type BrowserWindow } from 'electron';
import { DESK_PORT_CHANNEL } from '../src/bridge/wire.ts';
import { startDeskProcess, type DeskProcess } from './desk-process.ts';
import { printWindow, tell } from './dialogs.ts';
import { setMenu } from './menu.ts';
import { isOurs } from './protocol.ts';
import { DESK_KEEPS_STOPPING, DESK_STOPPED } from './sentences.ts';
import { focusWindow, openWindow } from './windows.ts';

export interface Places {
  /** The built desk program, the built preload, the note of the window's size. */
  desk: string;
  preload: string;
  sizeFile: string;
  book: string;
}

/** A desk that stops this often within `STOPS_WITHIN` ms is not started again. */
const MOST_STOPS = 3;
const STOPS_WITHIN = 60_000;

/** Opens the book, then the window. */
export async function openDesktop(places: Places, demo: boolean): Promise<void> {
  let window: BrowserWindow | null = null;
  const stops: number[] = [];
  let desk = startDeskProcess(places.desk, onStopped);

  app.on('second-instance', () => window && focusWindow(window));
  app.on('window-all-closed', () => app.quit());
  let closed = false;
  app.on('will-quit', (event) => {
    if (closed) return;
    event.preventDefault();
    void desk.close().then(() => {
      closed = true;
      app.quit();
    });
  });
  ipcMain.on(DESK_PORT_CHANNEL, (event) => {
    // Only our own page gets a port; the frame is null when it went away meanwhile.
    if (isOurs(event.senderFrame?.url)) desk.connectWindow(event.sender);
  });
  setMenu({ backUp: () => void backUp(desk), print: () => window && printWindow(window) });
  await begin();

  async function begin(): Promise<void> {
    await desk.open(places.book, demo);
    if (window) {
      window.webContents.reload();
    } else {
      window = openWindow(places.preload, places.sizeFile);
      window.on('closed', () => (window = null));
    }
  }

  async function onStopped(): Promise<void> {
    const now = Date.now();
    stops.push(now);
    if (stops.filter((at) => now - at < STOPS_WITHIN).length >= MOST_STOPS) {
      await tell('error', DESK_KEEPS_STOPPING);
      app.exit(1);
      return;
    }
    desk = startDeskProcess(places.desk, onStopped);
    await begin();
    await tell('warning', DESK_STOPPED);
  }
}

async function backUp(desk: DeskProcess): Promise<void> {
  const path = await desk.backUp();
  if (path) await tell('info', `A checked backup was made: ${path}`);
  else await tell('error', 'No backup could be made: check that the disk has room and can be written.');
}
