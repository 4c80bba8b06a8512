/** The window's carrier over a message port. */
import type { Answer, Bridge, Changed } from '../contract.ts';
import type { CallMessage, DeskMessage } from '../wire.ts';
import { openListeners } from './listeners.ts';
import { plainCopy } from './plain.ts';

/** The answer to pending and later calls once the desk is gone. */
export const DESK_GONE: Answer<never> = { ok: false, problem: { kind: 'broken', code: 'desk.gone' } };

/** Makes calls over `port`. When the port closes, pending calls end with `desk.gone`, and later ones immediately. */
export function bridgeOverPort(port: MessagePort): Bridge {
  const waiting = new Map<number, (answer: Answer<unknown>) => void>();
  const listeners = openListeners();
  let last = 0;
  let gone = false;

  port.addEventListener('message', (event: MessageEvent<DeskMessage>) => {
    const message = event.data;
    if ('changed' in message) {
      listeners.notify(message.changed as Changed);
    } else if (message.id !== null) {
      waiting.get(message.id)?.(message.answer);
      waiting.delete(message.id);
    }
  });
  port.addEventListener('close', () => {
    gone = true;
    waiting.forEach((answer) => answer(DESK_GONE));
    waiting.clear();
  });
  port.start();

  const call = (
    name: string,
    input: unknown,
    opening: string | null,
    language: string,
  ): Promise<Answer<unknown>> => {
    const copy = plainCopy(input);
    if (!copy.ok) return Promise.resolve(copy);
    if (gone) return Promise.resolve(DESK_GONE);
    return new Promise((resolve) => {
      last += 1;
      waiting.set(last, resolve);
      const message = { id: last, name, input: JSON.parse(copy.json), opening, language };
      port.postMessage(message satisfies CallMessage);
    });
  };
  return { call: call as Bridge['call'], on: (_event, listener) => listeners.add(listener) };
}
