/**
 * The lines (sockets) of one server. Anybody on this computer can open lines and leave them lying, so those that
 * showed no session are few, and a new one takes the place of the one that did nothing for longest. A line that showed
 * a session moves out of their way.
 */
import type { Socket } from 'node:net';

/** Requests on one line that wait for their answer. A browser sends the next only after the answer. */
const MOST_WAITING = 4;

export interface Lines {
  /** A line was opened. */
  opened(line: Socket): void;
  /** A request came on it. False, and the line is cut, when too many before it have no answer yet. */
  asked(line: Socket): boolean;
  /** A request on it got its answer. */
  answered(line: Socket): void;
  /** Its sender showed a session. */
  vouched(line: Socket): void;
  isKnown(line: Socket): boolean;
}

/** @param most lines kept at once: of senders without a session, and of windows with one */
export function limitConnections(most: { strangers: number; windows: number }): Lines {
  // A Set keeps the order of adding, so the first is the one that did nothing for longest.
  const strangers = new Set<Socket>();
  const windows = new Set<Socket>();
  const waiting = new WeakMap<Socket, number>();
  const put = (line: Socket, lines: Set<Socket>, limit: number) => {
    lines.delete(line);
    if (line.destroyed) return;
    lines.add(line);
    const [oldest] = lines;
    if (lines.size > limit && oldest) {
      lines.delete(oldest);
      oldest.destroy();
    }
  };
  const isKnown = (line: Socket) => windows.has(line);
  const used = (line: Socket) =>
    isKnown(line) ? put(line, windows, most.windows) : put(line, strangers, most.strangers);
  return {
    isKnown,
    opened(line) {
      put(line, strangers, most.strangers);
      line.once('close', () => {
        strangers.delete(line);
        windows.delete(line);
      });
    },
    asked(line) {
      const before = waiting.get(line) ?? 0;
      if (before >= MOST_WAITING) {
        line.destroy();
        return false;
      }
      waiting.set(line, before + 1);
      used(line);
      return true;
    },
    answered(line) {
      waiting.set(line, (waiting.get(line) ?? 1) - 1);
      used(line);
    },
    vouched(line) {
      strangers.delete(line);
      put(line, windows, most.windows);
    },
  };
}
