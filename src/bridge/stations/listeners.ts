/** Listens on one port of several addresses, and on no other port. */
import { createServer, type Server, type Socket } from 'node:net';
import { ProblemError } from '../../desk/contract/problem.ts';

export interface Listeners {
  /**
   * Listens on these addresses and stops on all others; open sockets live on.
   * @throws ProblemError `line.port-taken`, `line.no-address`; then the addresses before are listened on still
   */
  listen(addresses: readonly string[]): Promise<void>;
  /** Stops listening. */
  close(): void;
}

export function openListeners(port: number, onSocket: (socket: Socket) => void): Listeners {
  const servers = new Map<string, Server>();
  return {
    async listen(addresses) {
      const added: string[] = [];
      try {
        for (const address of addresses) {
          if (servers.has(address)) continue;
          servers.set(address, await listenOn(address, port, onSocket));
          added.push(address);
        }
      } catch (error) {
        for (const address of added) stop(address);
        throw error;
      }
      for (const address of [...servers.keys()]) if (!addresses.includes(address)) stop(address);
    },
    close() {
      for (const address of [...servers.keys()]) stop(address);
    },
  };

  function stop(address: string): void {
    servers.get(address)?.close();
    servers.delete(address);
  }
}

function listenOn(host: string, port: number, onSocket: (socket: Socket) => void): Promise<Server> {
  return new Promise((resolve, reject) => {
    const server = createServer(onSocket);
    server.once('error', (error: NodeJS.ErrnoException) => reject(problemOf(error, port)));
    server.listen({ host, port, ipv6Only: true }, () => {
      server.removeAllListeners('error');
      server.on('error', (error) => console.error('Gambrel: listening for stations failed.', error));
      resolve(server);
    });
  });
}

function problemOf(error: NodeJS.ErrnoException, port: number): Error {
  // The port is part of every station's address: another one would strand them all.
  if (error.code === 'EADDRINUSE' || error.code === 'EACCES')
    return new ProblemError('conflict', 'line.port-taken', { with: { port } });
  if (error.code === 'EADDRNOTAVAIL') return new ProblemError('missing', 'line.no-address');
  return error;
}
