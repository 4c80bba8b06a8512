/** Finds a free port on the loopback address. */
import type { Server } from 'node:http';

/** The only address that the server binds to. */
export const LOOPBACK = '127.0.0.1';
/** Number of following ports to try before any free one. */
const MAX_TRIES = 20;

/**
 * Listens on `wanted`, else on the next free port, else on any.
 * @returns the bound port; with `wanted` 0 the system chooses
 */
export async function listenNear(server: Server, preferred: number): Promise<number> {
  const last = Math.min(preferred + MAX_TRIES, 65_535);
  for (let port = preferred; preferred > 0 && port <= last; port += 1) {
    const taken = await listen(server, port);
    if (taken !== null) return taken;
  }
  const any = await listen(server, 0);
  if (any === null) throw new Error('No free port on 127.0.0.1.');
  return any;
}

/** The bound port, or null when it is in use (or privileged). */
function listen(server: Server, port: number): Promise<number | null> {
  return new Promise((resolve, reject) => {
    const failed = (error: NodeJS.ErrnoException) => {
      if (error.code === 'EADDRINUSE' || error.code === 'EACCES') resolve(null);
      else reject(error);
    };
    server.once('error', failed);
    server.listen(port, LOOPBACK, () => {
      server.removeListener('error', failed);
      const address = server.address();
      resolve(typeof address === 'object' && address ? address.port : port);
    });
  });
}
