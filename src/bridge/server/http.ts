/** Carries calls over HTTP on 127.0.0.1: the same window and the same desk, in an ordinary browser. */
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { Duplex } from 'node:stream';
import type { Problem } from '../../desk/problem.ts';
import { OPENING_HEADER } from '../wire.ts';
import { answerCall, type DeskCaller } from './answer.ts';
import { openStreams, type Streams } from './http-events.ts';
import { bearerOf, checkSender, readJson, RefusedRequest } from './http-request.ts';
import { listenNear, LOOPBACK } from './listen.ts';
import { openSessions, type Sessions } from './sessions.ts';
import { SAFE_HEADERS, windowFile } from './window-files.ts';

export interface HttpCarrierOptions {
  desk: DeskCaller;
  /** Folder of the built window. */
  windowFolder: string;
  /** The wanted port; the next free one is taken if it is not free; 0 = any. */
  port: number;
  /** How long a request may take to arrive, and how often that is looked at, ms. */
  patience?: { requestMs: number; checkMs: number };
  /** Lines, and streams of changes among them, that are open at once. */
  most?: { lines: number; streams: number };
}

export interface HttpCarrier {
  port: number;
  /** What to open in a browser, key included. */
  address: string;
  /** Ends all streams and connections. */
  close(): Promise<void>;
}

/** A browser opens six lines to one address, and a hidden window holds none: more than any shop has windows. */
const MOST = { lines: 256, streams: 64 };

/**
 * Starts the loopback server. The address carries the key in its fragment, which a browser never sends; the page
 * shows it once to `POST /session` and gets a pass, with which it calls `POST /call/<name>` and reads `GET /events`.
 * Every refusal is a status and `{ ok: false, problem }`; what the desk itself refuses is an answer, status 200.
 */
export async function serveOverHttp(options: HttpCarrierOptions): Promise<HttpCarrier> {
  const { requestMs, checkMs } = options.patience ?? { requestMs: 15_000, checkMs: 5_000 };
  const most = options.most ?? MOST;
  const sessions = openSessions();
  const streams = openStreams(options.desk, most.streams);
  let port = 0;
  const server = createServer(
    { requestTimeout: requestMs, headersTimeout: requestMs, connectionsCheckingInterval: checkMs },
    (request, response) => {
      route({ ...options, port, sessions, streams }, request, response).catch((error: unknown) =>
        refuse(request, response, error),
      );
    },
  );
  // One line too many is hung up on by Node before anything of it is read.
  server.maxConnections = most.lines;
  server.on('clientError', refuseRaw);
  port = await listenNear(server, options.port);
  return {
    port,
    address: `http://${LOOPBACK}:${port}/#key=${sessions.key}`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

interface Counter extends HttpCarrierOptions {
  sessions: Sessions;
  streams: Streams;
}

async function route(counter: Counter, request: IncomingMessage, response: ServerResponse): Promise<void> {
  checkSender(request, counter.port);
  const path = (request.url ?? '').split('?', 1)[0] ?? '';
  const { method } = request;
  if (path === '/session') {
    allow(method, ['POST']);
    const body = await readJson(request);
    const pass = counter.sessions.admit((body as { key?: unknown } | null)?.key);
    if (pass === null) throw new RefusedRequest(401, 'refused', 'session.wrong-key');
    return sendJson(response, 200, { bearer: pass });
  }
  if (path.startsWith('/call/')) {
    allow(method, ['POST']);
    checkPass(counter, request);
    const opening = request.headers[OPENING_HEADER];
    const name = path.slice('/call/'.length);
    const answer = await answerCall(counter.desk, name, await readJson(request), opening);
    const unknown = !answer.ok && answer.problem.code === 'call.unknown';
    return sendJson(response, unknown ? 404 : 200, answer);
  }
  if (path === '/events') {
    allow(method, ['GET']);
    checkPass(counter, request);
    if (!counter.streams.open(response)) throw new RefusedRequest(503, 'refused', 'request.too-many');
    return;
  }
  allow(method, ['GET', 'HEAD']);
  const file = await windowFile(counter.windowFolder, path);
  response.writeHead(file.status, { ...file.headers, 'content-length': file.body.length });
  response.end(method === 'HEAD' ? undefined : file.body);
}

function allow(method: string | undefined, methods: readonly string[]): void {
  if (!methods.includes(method ?? '')) throw new RefusedRequest(405, 'invalid', 'request.wrong-method');
}

function checkPass(counter: Counter, request: IncomingMessage): void {
  if (!counter.sessions.knows(bearerOf(request))) {
    throw new RefusedRequest(401, 'refused', 'session.unknown');
  }
}

function sendJson(response: ServerResponse, status: number, value: unknown): void {
  const body = Buffer.from(JSON.stringify(value));
  response.writeHead(status, {
    ...SAFE_HEADERS,
    'content-type': 'application/json; charset=utf-8',
    'content-length': body.length,
  });
  response.end(body);
}

function refuse(request: IncomingMessage, response: ServerResponse, error: unknown): void {
  if (!(error instanceof RefusedRequest)) console.error('Gambrel: a request failed.', error);
  if (response.headersSent || response.destroyed) {
    response.destroy();
    return;
  }
  const refused = error instanceof RefusedRequest ? error : new RefusedRequest(500, 'broken', 'desk.failed');
  if (!request.complete) {
    // The rest of a body that nobody wants: let the sender read the answer, then hang up.
    response.setHeader('connection', 'close');
    response.once('finish', () => setTimeout(() => request.destroy(), 500).unref());
    request.resume();
  }
  sendJson(response, refused.status, { ok: false, problem: refused.problem });
}

/** Requests that Node could not even read: too slow, oversized headers, not HTTP. */
function refuseRaw(error: NodeJS.ErrnoException, socket: Duplex): void {
  if (!socket.writable || error.code === 'ECONNRESET') {
    socket.destroy();
    return;
  }
  const [status, code] =
    error.code === 'ERR_HTTP_REQUEST_TIMEOUT'
      ? ['408 Request Timeout', 'request.too-slow']
      : error.code === 'HPE_HEADER_OVERFLOW'
        ? ['431 Request Header Fields Too Large', 'request.too-large']
        : ['400 Bad Request', 'request.malformed'];
  const problem: Problem = { kind: 'invalid', code };
  const body = JSON.stringify({ ok: false, problem });
  socket.end(
    `HTTP/1.1 ${status}\r\ncontent-type: application/json\r\nconnection: close\r\ncontent-length: ${body.length}\r\n\r\n${body}`,
  );
}
