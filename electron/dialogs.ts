/** The shell's own news and questions, outside the window. */
import { dialog } from 'electron';

/** One sentence with nothing to decide. */
export async function tell(kind: 'info' | 'warning' | 'error', message: string): Promise<void> {
  await dialog.showMessageBox({ type: kind, title: 'Gambrel', message, buttons: ['OK'], noLink: true });
}

/**
 * A question with a button for each answer; the first one stands under Enter.
 * @param escape the answer for a person who goes away from the question; the first one if not said
 * @returns the number of the answer
 */
export async function ask(message: string, buttons: string[], escape = 0): Promise<number> {
  const { response } = await dialog.showMessageBox({
    type: 'question',
    title: 'Gambrel',
    message,
    buttons,
    defaultId: 0,
    cancelId: escape,
    noLink: true,
  });
  return response;
}
