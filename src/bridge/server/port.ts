/** Carries calls over a message port between the desktop window and the desk. */
import type { DeskMessage } from '../wire.ts';
import { answerCall, problemAnswer, type DeskCaller } from './answer.ts';

/** The few members used of Electron's `MessagePortMain`. */
export interface DeskPort {
  on(event: 'message', listener: (event: { data: unknown }) => void): unknown;
  on(event: 'close', listener: () => void): unknown;
  postMessage(message: unknown): void;
  start(): void;
  close(): void;
}

/**
 * Answers calls on `port` and posts every change, until the port closes.
 * @returns a function that removes the listener and closes the port
 */
export function servePort(desk: DeskCaller, port: DeskPort): () => void {
  const post = (message: DeskMessage) => port.postMessage(message);
  const stopListening = desk.onChanged((changed) => post({ changed }));
  port.on('message', ({ data }) => void answerMessage(desk, data, post));
  port.on('close', stopListening);
  port.start();
  return () => {
    stopListening();
    port.close();
  };
}

async function answerMessage(
  desk: DeskCaller,
  data: unknown,
  post: (message: DeskMessage) => void,
): Promise<void> {
  const { id, name, input, opening, language } = (typeof data === 'object' && data ? data : {}) as Record<
    string,
    unknown
  >;
  if (typeof id !== 'number') {
    post({ id: null, answer: problemAnswer('invalid', 'request.malformed') });
    return;
  }
  const answer = await answerCall(desk, name, input, opening, language);
  try {
    post({ id, answer });
  } catch (error) {
    console.error(`Gambrel: the answer to ${String(name)} could not be sent.`, error);
    post({ id, answer: problemAnswer('broken', 'desk.failed') });
  }
}
