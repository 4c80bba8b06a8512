/** The shell's own news and questions, outside the window. */
import { BrowserWindow, dialog, type MessageBoxOptions, type MessageBoxReturnValue } from 'electron';
import { logError } from './log.ts';

/** One sentence with nothing to decide. */
export async function tell(kind: 'info' | 'warning' | 'error', message: string): Promise<void> {
  await show({ type: kind, title: 'Gambrel', message, buttons: ['OK'], noLink: true });
}

/** The same for those who can do nothing about a sentence that cannot be shown: it is logged. Never rejects. */
export async function announce(kind: 'info' | 'warning' | 'error', message: string): Promise<void> {
  await tell(kind, message).catch((error: unknown) => logError('not-told', error));
}

/**
 * A question with a button for each answer; the first one stands under Enter.
 * @param buttons shown as they are: each system takes another sign in them for the mark of a key, and names hold such signs
 * @param escape the answer for a person who goes away from the question; the first one if not said
 * @returns the number of the answer
 */
export async function ask(message: string, buttons: string[], escape = 0): Promise<number> {
  const { response } = await show({
    type: 'question',
    title: 'Gambrel',
    message,
    buttons: buttons.map((label) => label.replaceAll('&', '&&')),
    normalizeAccessKeys: true,
    defaultId: 0,
    cancelId: escape,
    noLink: true,
  });
  return response;
}

/**
 * On macOS a box without a window stops the whole process until it is answered: pages do not load, and an end of the desk is not
 * noticed. Over a window it is a sheet and stops nothing. Never over a hidden window, where nobody could answer.
 */
function show(options: MessageBoxOptions): Promise<MessageBoxReturnValue> {
  const over = BrowserWindow.getAllWindows().find((window) => window.isVisible());
  return process.platform === 'darwin' && over
    ? dialog.showMessageBox(over, options)
    : dialog.showMessageBox(options);
}
