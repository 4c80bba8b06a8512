/** Carries calls over HTTP on 127.0.0.1: the same window and desk in an ordinary browser. */
import { createServer } from 'node:http';
import Fastify, { type FastifyInstance, type FastifyReply, type FastifyRequest } from 'fastify';
import type { DeskCaller } from './answer.ts';
import { openStreams } from './http-events.ts';
import { BODY_LIMIT } from './json-body.ts';
import { limitConnections, type Connections } from './connections.ts';
import { listenNear, LOOPBACK } from './listen.ts';
import { refuse, RefusedRequest, refuseRaw } from './refusal.ts';
import { addRoutes } from './routes.ts';
import { checkAddress, checkSender } from './sender.ts';
import { openSessions } from './sessions.ts';

export interface HttpCarrierOptions {
  desk: DeskCaller;
  /** Folder of the built window. */
  windowFolder: string;
  /** The preferred port; the next free one if it is in use; 0 = any. */
  port: number;
  /** Timeouts for headers and for the whole request, and the interval of the check, ms. */
  patience?: { headersMs: number; requestMs: number; checkMs: number };
  /** Limits on open unauthenticated sockets, sockets of windows, and change streams. */
  most?: { anonymous: number; windows: number; streams: number };
}

export interface HttpCarrier {
  port: number;
  /** A new address to open in a browser. It admits one window, once, within a minute. */
  newAddress(): string;
  /** Ends all streams and connections. */
  close(): Promise<void>;
}

const PATIENCE = { headersMs: 5_000, requestMs: 10_000, checkMs: 1_000 };
/** A browser opens six sockets per address, and a hidden window none: more than any shop has windows. */
const MAX_OPEN = { anonymous: 128, windows: 256, streams: 64 };
/** A window has one change stream; a duplicated tab shares its session. */
const MAX_STREAMS_OF_SESSION = 4;

/**
 * Starts the loopback server. An address carries its code in the fragment, which a browser never sends. The page
 * posts it once to `POST /session` and gets a session for `POST /call/<name>` and `GET /events`. Every refusal is a
 * status and `{ ok: false, problem }`; a refusal by the desk itself is a response with status 200.
 */
export async function serveOverHttp(options: HttpCarrierOptions): Promise<HttpCarrier> {
  const most = options.most ?? MAX_OPEN;
  const lines = limitConnections(most);
  const sessions = openSessions();
  const streams = openStreams(options.desk, most.streams, MAX_STREAMS_OF_SESSION);
  const app = openApp(options.patience ?? PATIENCE, lines);
  let port = 0;
  app.addHook('onRequest', async (request) => {
    checkAddress(request.raw);
    checkSender(request.raw, port);
    if (request.is404) throw new RefusedRequest(405, 'invalid', 'request.wrong-method');
  });
  addRoutes(app, { ...options, lines, sessions, streams });
  await app.ready();
  port = await listenNear(app.server, options.port);
  return {
    port,
    newAddress: () => `http://${LOOPBACK}:${port}/#code=${sessions.newCode()}`,
    close: () =>
      new Promise((resolve) => {
        app.server.close(() => void app.close().then(resolve));
        app.server.closeAllConnections();
      }),
  };
}

/** Inputs are validated by the desk for every carrier; the framework's own compilers would only slow the start. */
const NO_SCHEMAS = { buildValidator: noSchema, buildSerializer: noSchema };

function noSchema(): never {
  throw new Error('Routes have no schemas.');
}

/** A server without routes, with error handling and socket limits. */
function openApp({ headersMs, requestMs, checkMs }: typeof PATIENCE, lines: Connections): FastifyInstance {
  const patience = {
    headersTimeout: headersMs,
    requestTimeout: requestMs,
    connectionsCheckingInterval: checkMs,
  };
  const app = Fastify({
    bodyLimit: BODY_LIMIT,
    schemaController: { compilersFactory: NO_SCHEMAS },
    exposeHeadRoutes: false, // HEAD of a stream would open one
    clientErrorHandler: refuseRaw,
    frameworkErrors: answerError,
    serverFactory: (handle) =>
      createServer(patience, (request, response) => {
        const { socket } = request;
        if (!lines.onRequest(socket)) return;
        response.once('close', () => lines.onResponse(socket));
        handle(request, response);
      }),
  });
  app.setErrorHandler(answerError);
  app.server.on('connection', lines.onOpen);
  return app;

  function answerError(error: unknown, request: FastifyRequest, reply: FastifyReply): void {
    refuse(error, request, reply, lines.isAuthenticated(request.raw.socket));
  }
}
