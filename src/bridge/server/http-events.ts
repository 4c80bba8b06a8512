/** The change stream over HTTP, as server-sent events. */
import type { ServerResponse } from 'node:http';
import type { DeskCaller } from './answer.ts';
import { SAFE_HEADERS } from './window-files.ts';

/** Interval of heartbeats, ms, by which both sides detect a broken connection. */
const HEARTBEAT = 15_000;
/** Maximum unsent bytes for a window that does not read; beyond it the stream is cut, and the window refetches. */
const MAX_WAITING = 64 * 1024;

export interface Streams {
  /** Keeps `response` open and writes every change to it; false when the session or the server has too many streams. */
  open(response: ServerResponse, session: string): boolean;
}

/**
 * The streams of one server, at most `most` in total and `mostEach` per session, so that no window blocks the
 * others.
 */
export function openStreams(desk: DeskCaller, most: number, mostEach: number): Streams {
  let count = 0;
  const of = new Map<string, number>();
  const add = (session: string, by: number): void => {
    count += by;
    const now = (of.get(session) ?? 0) + by;
    if (now > 0) of.set(session, now);
    else of.delete(session);
  };
  return {
    open(response, session) {
      if (count >= most || (of.get(session) ?? 0) >= mostEach) return false;
      add(session, 1);
      response.once('close', () => add(session, -1));
      streamChanges(desk, response);
      return true;
    },
  };
}

/**
 * Keeps `response` open and writes every change of the book to it, until either side ends it. The window reads it
 * with `fetch` rather than `EventSource`, so that the session travels in a header instead of in an address, which
 * ends up in histories and logs.
 */
function streamChanges(desk: DeskCaller, response: ServerResponse): void {
  response.writeHead(200, { ...SAFE_HEADERS, 'content-type': 'text/event-stream; charset=utf-8' });
  const write = (text: string) => {
    if (response.writableLength > MAX_WAITING) response.destroy();
    else response.write(text);
  };
  write(': listening\n\n');
  const stopListening = desk.onChanged((changed) =>
    write(`event: changed\ndata: ${JSON.stringify(changed)}\n\n`),
  );
  const heartbeat = setInterval(() => write(': alive\n\n'), HEARTBEAT);
  response.on('close', () => {
    clearInterval(heartbeat);
    stopListening();
  });
}
