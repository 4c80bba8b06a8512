/**
 * The lines (sockets) of one server. Anybody on this computer can open lines and leave them lying, so those that
 * showed no session are few, and a new one takes the place of the one that did nothing for longest. A line that showed
 * a session moves out of their way.
 */
import type { Socket } from 'node:net';

/** Requests on one line that wait for their answer. A browser sends the next only after the answer. */
const MAX_PENDING = 4;

export interface Connections {
  /** A line was opened. */
  onOpen(socket: Socket): void;
  /** A request came on it. False, and the line is cut, when too many before it have no answer yet. */
  onRequest(socket: Socket): boolean;
  /** A request on it got its answer. */
  onResponse(socket: Socket): void;
  /** Its sender showed a session. */
  onAuthenticated(socket: Socket): void;
  isAuthenticated(socket: Socket): boolean;
}

/** @param most lines kept at once: of senders without a session, and of windows with one */
export function limitConnections(most: { anonymous: number; windows: number }): Connections {
  // A Set keeps the order of adding, so the first is the one that did nothing for longest.
  const anonymous = new Set<Socket>();
  const windows = new Set<Socket>();
  const waiting = new WeakMap<Socket, number>();
  const put = (socket: Socket, sockets: Set<Socket>, limit: number) => {
    sockets.delete(socket);
    if (socket.destroyed) return;
    sockets.add(socket);
    const [oldest] = sockets;
    if (sockets.size > limit && oldest) {
      sockets.delete(oldest);
      oldest.destroy();
    }
  };
  const isAuthenticated = (socket: Socket) => windows.has(socket);
  const used = (socket: Socket) =>
    isAuthenticated(socket) ? put(socket, windows, most.windows) : put(socket, anonymous, most.anonymous);
  return {
    isAuthenticated,
    onOpen(socket) {
      put(socket, anonymous, most.anonymous);
      socket.once('close', () => {
        anonymous.delete(socket);
        windows.delete(socket);
      });
    },
    onRequest(socket) {
      const before = waiting.get(socket) ?? 0;
      if (before >= MAX_PENDING) {
        socket.destroy();
        return false;
      }
      waiting.set(socket, before + 1);
      used(socket);
      return true;
    },
    onResponse(socket) {
      waiting.set(socket, (waiting.get(socket) ?? 1) - 1);
      used(socket);
    },
    onAuthenticated(socket) {
      anonymous.delete(socket);
      put(socket, windows, most.windows);
    },
  };
}
