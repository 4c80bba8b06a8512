/** The functions that are sent into the program as text: each runs where nothing of this project is. */
import { runInNewContext } from 'node:vm';
import type * as Electron from 'electron';
import { expect, it } from 'vitest';
import * as inMain from './in-main.ts';

/** A function as it arrives in the main process, where only Node's own names are known. */
function sent<F extends (...given: never[]) => unknown>(name: F): F {
  return runInNewContext(`(${name.toString()})`, { setTimeout }) as F;
}

/** As much of Electron as is asked, one window in it. */
function electron() {
  const did: string[] = [];
  let onDownload: (event: object, item: { setSavePath(path: string): void }) => void = () => undefined;
  const webContents = {
    isCrashed: () => false,
    executeJavaScript: async (code: string) => `shown by ${code}`,
    forcefullyCrashRenderer: () => did.push('crashed'),
    getOSProcessId: () => 17,
  };
  const window = { isVisible: () => true, isMinimized: () => false, webContents };
  const metrics = [
    { type: 'Utility', name: 'Audio Service', pid: 3 },
    { type: 'Utility', name: 'Gambrel desk', pid: 4 },
  ];
  const stub = {
    dialog: { showMessageBox: async (): Promise<unknown> => Promise.reject(new Error('Nobody answers')) },
    BrowserWindow: { getAllWindows: () => [window] },
    app: { getAppMetrics: () => metrics, getPath: (name: string) => `/${name}`, getVersion: () => '0.1.0' },
    session: {
      defaultSession: { once: (_name: string, listener: typeof onDownload) => (onDownload = listener) },
    },
  };
  const save = () => onDownload({}, { setSavePath: (path) => did.push(`saved to ${path}`) });
  return { did, window, webContents, save, stub, given: stub as unknown as typeof Electron };
}

it('boxes are answered with the first button, and what they said is kept', async () => {
  const { stub, given } = electron();
  // Both see the same global object in the program; here they share this one.
  inMain.answerDialogs(given);
  const show = stub.dialog.showMessageBox as (options: object) => Promise<unknown>;
  expect(await show({ message: 'The window stopped' })).toEqual({ response: 0, checkboxChecked: false });
  expect(inMain.dialogsTold()).toEqual(['The window stopped']);
  const other = electron();
  sent(inMain.answerDialogs)(other.given);
  expect(other.stub.dialog.showMessageBox).not.toBe(stub.dialog.showMessageBox);
});

it('a window is looked at and crashed', async () => {
  const { did, window, webContents, given } = electron();
  expect(sent(inMain.isVisible)(given)).toBe(true);
  window.isVisible = () => false;
  expect(sent(inMain.isVisible)(given)).toBe(false);
  expect(await sent(inMain.windowText)(given)).toBe('shown by document.body.innerText');
  webContents.isCrashed = () => true;
  expect(await sent(inMain.windowText)(given)).toBe('');
  expect(sent(inMain.windowPid)(given)).toBe(17);
  sent(inMain.crashWindow)(given);
  expect(did).toEqual(['crashed']);
});

it('a page that never answers shows nothing', async () => {
  const { webContents, given } = electron();
  webContents.executeJavaScript = () => new Promise<string>(() => undefined);
  expect(await sent(inMain.windowText)(given)).toBe('');
});

it('the desk is told from other processes, folders are named, and a file goes where it is sent', () => {
  const { did, save, given } = electron();
  expect(sent(inMain.utilityPid)(given, 'Gambrel desk')).toBe(4);
  expect(sent(inMain.utilityPid)(given, 'nothing')).toBe(0);
  expect(sent(inMain.folders)(given)).toEqual({ userData: '/userData', logs: '/logs', version: '0.1.0' });
  sent(inMain.saveNextTo)(given, '/tmp/table.csv');
  save();
  expect(did).toEqual(['saved to /tmp/table.csv']);
});
