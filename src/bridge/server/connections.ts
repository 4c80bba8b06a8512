/**
 * Limits the sockets of one server. Any program on this computer can open sockets and leave them idle, so the
 * number of unauthenticated ones is small, and a new one replaces the one that was idle longest. An authenticated
 * socket no longer counts among them.
 */
import type { Socket } from 'node:net';

/** Pending requests per socket. A browser sends the next only after the response. */
const MAX_PENDING = 4;

export interface Connections {
  /** A socket was opened. */
  onOpen(socket: Socket): void;
  /** A request arrived. False, and the socket is destroyed, when too many are pending. */
  onRequest(socket: Socket): boolean;
  /** A response was sent. */
  onResponse(socket: Socket): void;
  /** The socket presented a session. */
  onAuthenticated(socket: Socket): void;
  isAuthenticated(socket: Socket): boolean;
}

/** @param most sockets at a time: unauthenticated, and of windows */
export function limitConnections(most: { anonymous: number; windows: number }): Connections {
  // A Set keeps insertion order, so the first is the one that was idle longest.
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
