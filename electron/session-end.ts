/** Closes the book when the Windows session ends, while the system waits. */
import { existsSync, rmSync } from 'node:fs';
import { app } from 'electron';
import { logEvent } from './log.ts';

/** Maximum delay of the session end, ms. Windows ends a program that has not answered after 5 s (HungAppTimeout). */
const WAIT = 4_000;
const POLL_MS = 20;

/**
 * Closes the book when the person logs off or Windows shuts down. The process ends as soon as the handlers return,
 * and nothing asynchronous runs before that, so this polls for a file that the desk creates. Call it before the
 * first window.
 * @param doneFile the file that signals that the book is closed
 * @param close starts closing the book; `backUp` is false where Windows forces the end and gives no time
 */
export function closeWhenSessionEnds(
  doneFile: string,
  close: (backUp: boolean, doneFile: string) => void,
): void {
  let ended = false;
  app.on('browser-window-created', (_event, window) => {
    window.on('session-end', ({ reasons }) => {
      if (ended) return; // every window receives the event
      ended = true;
      rmSync(doneFile, { force: true });
      close(!reasons.includes('critical'), doneFile);
      const closed = waitFor(doneFile);
      rmSync(doneFile, { force: true });
      logEvent('session-ended', { reasons: reasons.join('+'), closed: String(closed) });
    });
  });
}

/** Blocks until the file exists; false after `WAIT`. */
function waitFor(file: string): boolean {
  const asleep = new Int32Array(new SharedArrayBuffer(4));
  for (let waited = 0; waited < WAIT; waited += POLL_MS) {
    if (existsSync(file)) return true;
    Atomics.wait(asleep, 0, 0, POLL_MS);
  }
  return false;
}
