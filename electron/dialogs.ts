/** The shell's own questions and news, outside the window. */
import { dialog, type BrowserWindow } from 'electron';
import type { FromDesk } from './desk-messages.ts';
import { openingSentence } from './sentences.ts';

/** Says why the book did not open. True: put the backup in its place; false: quit. */
export async function askAfterTrouble({
  trouble,
  backup,
}: Extract<FromDesk, { kind: 'trouble' }>): Promise<boolean> {
  const { response } = await dialog.showMessageBox({
    type: 'error',
    title: 'Gambrel',
    message: openingSentence(trouble),
    detail: backup ? 'The present file is kept beside it under another name.' : '',
    buttons: backup ? [`Open the backup of ${new Date(backup.at).toLocaleString()}`, 'Quit'] : ['Quit'],
    defaultId: 0,
    cancelId: backup ? 1 : 0,
    noLink: true,
  });
  return backup !== null && response === 0;
}

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
