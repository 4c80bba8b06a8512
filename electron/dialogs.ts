/** The shell's messages and questions, outside the window. */
import { BrowserWindow, dialog, type MessageBoxOptions, type MessageBoxReturnValue } from 'electron';
import { text } from '../src/words/compiled/shell/notices.ts';
import { logError } from './log.ts';

/** A message without a choice. */
export async function showMessage(kind: 'info' | 'warning' | 'error', message: string): Promise<void> {
  await show({ type: kind, title: 'Gambrel', message, buttons: [text.ok], noLink: true });
}

/** The same for callers that cannot handle a failed message: it is logged. Never rejects. */
export async function announce(kind: 'info' | 'warning' | 'error', message: string): Promise<void> {
  await showMessage(kind, message).catch((error: unknown) => logError('not-told', error));
}

/**
 * A question with a button for each answer; the first is the default.
 * @param buttons shown literally: each system treats some character as an access key, and names contain such
 *   characters
 * @param escape the answer on Escape; default: the first one
 * @returns the index of the answer
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
 * On macOS a dialog without a window blocks the whole process until answered: pages do not load, and an end of the
 * desk is not noticed. Attached to a window it is a sheet and blocks nothing. Never attached to a hidden window,
 * where nobody could answer.
 */
function show(options: MessageBoxOptions): Promise<MessageBoxReturnValue> {
  const over = BrowserWindow.getAllWindows().find((window) => window.isVisible());
  return process.platform === 'darwin' && over
    ? dialog.showMessageBox(over, options)
    : dialog.showMessageBox(options);
}
