/** The browser window's carrier over loopback HTTP. */
import type { Answer, Bridge, Changed } from '../contract.ts';
import { LANGUAGE_HEADER, OPENING_HEADER } from '../wire.ts';
import { readEvents } from './event-stream.ts';
import { ANYTHING_CHANGED, openListeners } from './listeners.ts';
import { plainCopy } from './plain.ts';
import { DESK_GONE } from './port.ts';
import { openSession, type Session, type SessionPlace } from './session.ts';

export interface HttpPlace extends SessionPlace {
  /** Resolves when the window is visible: a browser allows six sockets per address, so a hidden window uses none. */
  seen(): Promise<void>;
  /** Aborted when the window is hidden. */
  hidden(): AbortSignal;
  wait(milliseconds: number): Promise<void>;
}

/** Delays before reconnecting the change stream, ms; the last one repeats. */
const PAUSES = [500, 1_000, 2_000, 5_000, 10_000];

/** Makes calls over HTTP. An unreachable server is `desk.gone`; an unknown session is `desk.no-session`. */
export function bridgeOverHttp(place: HttpPlace): Bridge {
  const session = openSession(place);
  const listeners = openListeners();
  void followChanges(place, session, listeners.notify);

  const call = async (
    name: string,
    input: unknown,
    opening: string | null,
    language: string,
  ): Promise<Answer<unknown>> => {
    const copy = plainCopy(input);
    if (!copy.ok) return copy;
    try {
      const response = await session.fetch(`/call/${encodeURIComponent(name)}`, {
        method: 'POST',
        headers: {
          'content-type': 'application/json',
          [LANGUAGE_HEADER]: language,
          ...(opening && { [OPENING_HEADER]: opening }),
        },
        body: copy.json,
      });
      if (response.status === 401)
        return { ok: false, problem: { kind: 'refused', code: 'desk.no-session' } };
      return (await response.json()) as Answer<unknown>;
    } catch {
      return DESK_GONE; // no connection, or a truncated answer
    }
  };
  return { call: call as Bridge['call'], on: (_event, listener) => listeners.add(listener) };
}

/** Reads the change stream while the window exists and is authenticated, and reports once after each interruption. */
async function followChanges(
  place: HttpPlace,
  session: Session,
  notify: (changed: Changed) => void,
): Promise<void> {
  let broken = false;
  for (let tries = 0; ; tries += 1) {
    await place.seen();
    try {
      const response = await session.fetch('/events', { signal: place.hidden() });
      if (response.status === 401) return;
      if (response.ok && response.body) {
        tries = 0;
        if (broken) notify(ANYTHING_CHANGED);
        await readEvents(response.body, ({ event, data }) => {
          if (event === 'changed') notify(JSON.parse(data) as Changed);
        });
      }
    } catch {
      // The connection broke or the window was hidden: both mean reconnecting below.
    }
    broken = true;
    await place.wait(PAUSES[Math.min(tries, PAUSES.length - 1)] ?? 0);
  }
}
