/** One port for TLS and plain HTTP: the first byte of a connection says which it is. */
import type { Server } from 'node:http';
import type { Socket } from 'node:net';

/** First byte of a TLS connection: a record of type handshake (RFC 8446, section 5.1). */
const HANDSHAKE = 0x16;

/**
 * Hands a new socket to the server that understands it. A socket that sends nothing is destroyed after `patience` ms.
 */
export function sortLine(socket: Socket, servers: { secure: Server; plain: Server }, patience: number): void {
  const timer = setTimeout(() => socket.destroy(), patience);
  socket.once('close', () => clearTimeout(timer));
  socket.once('data', (piece) => {
    clearTimeout(timer);
    socket.pause();
    socket.unshift(piece);
    const server = piece[0] === HANDSHAKE ? servers.secure : servers.plain;
    server.emit('connection', socket);
    process.nextTick(() => socket.resume()); // TLS first takes what was read
  });
}
