/** The shell's own news, outside the window. */
import { dialog, type BrowserWindow } from 'electron';

/** One sentence with nothing to decide. */
export async function tell(kind: 'info' | 'warning' | 'error', message: string): Promise<void> {
  await dialog.showMessageBox({ type: kind, title: 'Gambrel', message, buttons: ['OK'], noLink: true });
}

/** Prints what the window shows, through the system's print dialog; a failure is said in words. */
export function printWindow(window: BrowserWindow): void {
  window.webContents.print({}, (success, reason) => {
    if (!success && !/cancel/i.test(reason)) void tell('error', `Nothing was printed: ${reason}.`);
  });
}
