/** A server of one file with a configurable faulty connection, and a proxy in front of it. */
import { readFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import { connect, type AddressInfo } from 'node:net';

/**
 * The outcome of one request: `whole`, a number of bytes followed by silence or a cut, or a status without the file.
 */
export type Turn = 'whole' | { stallAfter: number } | { cutAfter: number } | { status: number };

/** Certificate and key of `localhost` for tests only: nobody else trusts it. */
export const CERTIFICATE = new URL('localhost.pem', import.meta.url);

export interface BadLine {
  address: string;
  /** The `Range` header of each request so far; '' without one. */
  asked: string[];
  close(): Promise<void>;
}

/**
 * Serves `content` under every path. Each request takes the next of `turns`; the last one repeats.
 * @param ranges whether range requests are supported; a server without them sends the whole file again
 * @param secure whether it uses TLS, with a certificate of `localhost`
 */
export async function serveBadly(
  content: Buffer,
  turns: readonly Turn[],
  { ranges = true, secure = false } = {},
): Promise<BadLine> {
  const asked: string[] = [];
  const serve = (request: IncomingMessage, response: ServerResponse) => {
    const turn = turns[Math.min(asked.length, turns.length - 1)] ?? 'whole';
    asked.push(request.headers.range ?? '');
    answer(request, response, content, turn, ranges);
  };
  const pem = secure ? readFileSync(CERTIFICATE) : '';
  const server = secure ? createSecureServer({ cert: pem, key: pem }, serve) : createServer(serve);
  const address = (await listen(server)).replace(
    'http://127.0.0.1',
    secure ? 'https://localhost' : 'http://127.0.0.1',
  );
  return { address, asked, close: () => close(server) };
}

function answer(
  { headers }: IncomingMessage,
  response: ServerResponse,
  content: Buffer,
  turn: Turn,
  ranges: boolean,
): void {
  if (typeof turn === 'object' && 'status' in turn) {
    response.writeHead(turn.status).end('no file');
    return;
  }
  const first = ranges ? Number(/^bytes=(\d+)-$/.exec(headers.range ?? '')?.[1] ?? 0) : 0;
  if (first >= content.length) {
    response.writeHead(416, { 'content-range': `bytes */${content.length}` }).end();
    return;
  }
  const part = content.subarray(first);
  response.writeHead(first > 0 ? 206 : 200, {
    'content-length': part.length,
    ...(first > 0 ? { 'content-range': `bytes ${first}-${content.length - 1}/${content.length}` } : {}),
  });
  if (turn === 'whole') response.end(part);
  else if ('stallAfter' in turn) response.write(part.subarray(0, turn.stallAfter));
  else response.write(part.subarray(0, turn.cutAfter), () => setTimeout(() => response.destroy(), 200));
}

export interface Proxy {
  address: string;
  /** `host:port` of each requested tunnel. */
  tunnels: string[];
  close(): Promise<void>;
}

/** A proxy that opens tunnels; with `status` it refuses them. */
export async function openProxy(status?: number): Promise<Proxy> {
  const tunnels: string[] = [];
  const server = createServer((_request, response) => response.writeHead(501).end());
  server.on('connect', ({ url = '' }: IncomingMessage, socket) => {
    tunnels.push(url);
    if (status) {
      socket.end(`HTTP/1.1 ${status} No\r\n\r\n`);
      return;
    }
    const { hostname, port } = new URL(`http://${url}`);
    const onward = connect(Number(port), hostname, () => {
      socket.write('HTTP/1.1 200 OK\r\n\r\n');
      onward.pipe(socket).pipe(onward);
    });
    onward.on('error', () => socket.destroy());
    socket.on('error', () => onward.destroy());
  });
  return { address: await listen(server), tunnels, close: () => close(server) };
}

async function listen(server: Server): Promise<string> {
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
}

async function close(server: Server): Promise<void> {
  const closed = new Promise((done) => server.close(done));
  server.closeAllConnections();
  await closed;
}
