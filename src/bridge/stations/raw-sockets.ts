/** The sockets below TLS, which are counted, and destroyed when the line is switched off. */
import type { Server as HttpServer } from 'node:http';
import type { Socket } from 'node:net';
import type { Server, TLSSocket } from 'node:tls';

export interface RawSockets {
  onOpen(socket: Socket): void;
  /** Notes which socket each handshake of `server` belongs to. */
  follow(server: Server): void;
  /** The socket below a request's; a plain one is its own. */
  of(socket: Socket): Socket;
  destroyAll(): void;
}

export function rawSockets(): RawSockets {
  // Node does not tell which socket a TLS socket was made of; both ends of it are the same.
  const open = new Map<string, Socket>();
  const below = new WeakMap<Socket, Socket>();
  return {
    onOpen(socket) {
      const ends = endsOf(socket);
      open.set(ends, socket);
      socket.once('close', () => open.delete(ends));
      socket.on('error', () => socket.destroy()); // before a server took it, nobody else listens
    },
    follow(server) {
      server.on('secureConnection', (socket: TLSSocket) => {
        const raw = open.get(endsOf(socket));
        if (raw) below.set(socket, raw);
      });
    },
    of: (socket) => below.get(socket) ?? socket,
    destroyAll() {
      for (const socket of [...open.values()]) socket.destroy();
    },
  };
}

function endsOf({ remoteAddress, remotePort, localAddress }: Socket): string {
  return `${remoteAddress} ${remotePort} ${localAddress}`;
}

/**
 * Starts the timeouts of a server that is handed its sockets: Node checks headers and requests only from the event
 * on which a server begins to listen.
 */
export function startTimeouts(server: HttpServer): void {
  server.emit('listening');
}
