/** Carries calls over HTTP on 127.0.0.1: the same window and the same desk, in an ordinary browser. */
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
  /** The wanted port; the next free one is taken if it is not free; 0 = any. */
  port: number;
  /** How long a request may take to arrive, its headers and all of it, and how often that is looked at, ms. */
  patience?: { headersMs: number; requestMs: number; checkMs: number };
  /** Lines of senders without a session and of windows with one, and streams of changes, open at once. */
  most?: { anonymous: number; windows: number; streams: number };
}

export interface HttpCarrier {
  port: number;
  /** A new address to open in a browser. It lets one window in, once, within a minute. */
  newAddress(): string;
  /** Ends all streams and connections. */
  close(): Promise<void>;
}

const PATIENCE = { headersMs: 5_000, requestMs: 10_000, checkMs: 1_000 };
/** A browser opens six lines to one address, and a hidden window holds none: more than any shop has windows. */
const MOST = { anonymous: 128, windows: 256, streams: 64 };
/** A window has one stream of changes; a tab that was duplicated shares its session. */
const MOST_STREAMS_OF_SESSION = 4;

/**
 * Starts the loopback server. An address carries its code in the fragment, which a browser never sends; the page
 * shows it once to `POST /session` and gets a session, with which it calls `POST /call/<name>` and reads `GET /events`.
 * Every refusal is a status and `{ ok: false, problem }`; what the desk itself refuses is an answer, status 200.
 */
export async function serveOverHttp(options: HttpCarrierOptions): Promise<HttpCarrier> {
  const most = options.most ?? MOST;
  const lines = limitConnections(most);
  const sessions = openSessions();
  const streams = openStreams(options.desk, most.streams, MOST_STREAMS_OF_SESSION);
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

/** Inputs are checked by the desk, whichever carrier brought them; the framework's own compilers would only take time to load. */
const NO_SCHEMAS = { buildValidator: noSchema, buildSerializer: noSchema };

function noSchema(): never {
  throw new Error('Routes have no schemas.');
}

/** A server without routes, that answers every failure and keeps its lines in order. */
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
