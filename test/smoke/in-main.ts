/**
 * What the tests do inside the program's main process. The driver sends these functions over as text: each stands alone,
 * and nothing outside of it can be used.
 */
import type * as Electron from 'electron';

type Shell = typeof Electron;
interface Told {
  dialogsTold?: string[];
}

/** From now on answers every box with its first button, and keeps what it said. */
export function answerDialogs({ dialog }: Shell): void {
  const told: string[] = ((globalThis as Told).dialogsTold = []);
  const answer = async (...args: unknown[]) => {
    told.push((args.at(-1) as Electron.MessageBoxOptions).message);
    return { response: 0, checkboxChecked: false };
  };
  dialog.showMessageBox = answer;
}

export function dialogsTold(): string[] {
  return (globalThis as Told).dialogsTold ?? [];
}

/** Whether a window is on the screen. */
export function isVisible({ BrowserWindow }: Shell): boolean {
  return BrowserWindow.getAllWindows().some((window) => window.isVisible() && !window.isMinimized());
}

/** All that the window shows; '' while its page cannot be asked. */
export async function windowText({ BrowserWindow }: Shell): Promise<string> {
  const contents = BrowserWindow.getAllWindows()[0]?.webContents;
  if (!contents || contents.isCrashed()) return '';
  const late = new Promise<string>((resolve) => setTimeout(() => resolve(''), 2_000));
  return Promise.race([contents.executeJavaScript('document.body.innerText') as Promise<string>, late]);
}

export function crashWindow({ BrowserWindow }: Shell): void {
  BrowserWindow.getAllWindows()[0]?.webContents.forcefullyCrashRenderer();
}

/** The process of the utility of this name; 0 while there is none. */
export function utilityPid({ app }: Shell, name: string): number {
  return app.getAppMetrics().find((one) => one.type === 'Utility' && one.name === name)?.pid ?? 0;
}

export function windowPid({ BrowserWindow }: Shell): number {
  return BrowserWindow.getAllWindows()[0]?.webContents.getOSProcessId() ?? 0;
}

/** Saves the next file to `path` without asking where. */
export function saveNextTo({ session }: Shell, path: string): void {
  session.defaultSession.once('will-download', (_event, item) => item.setSavePath(path));
}

export function folders({ app }: Shell): { userData: string; logs: string; version: string } {
  return { userData: app.getPath('userData'), logs: app.getPath('logs'), version: app.getVersion() };
}
