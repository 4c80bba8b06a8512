/** The line for stations: one port of the shop's own network, TLS for everything but the page that explains it. */
import type { Server } from 'node:http';
import { createServer } from 'node:https';
import type { Socket } from 'node:net';
import Fastify, { type FastifyInstance, type FastifyReply, type FastifyRequest } from 'fastify';
import type { StationDoor } from '../../desk/contract/stations.ts';
import type { LeafNames } from '../authority/certificates.ts';
import type { OpenAuthority } from '../authority/open.ts';
import { limitConnections, type Connections } from '../server/connections.ts';
import { BODY_LIMIT } from '../server/json-body.ts';
import { refuse, RefusedRequest, refuseRaw } from '../server/refusal.ts';
import { checkAddress } from '../server/sender.ts';
import { checkHost, checkOrigin, hostsOf } from './allowed.ts';
import { sharedWith, stationHeaders } from './headers.ts';
import { openListeners } from './listeners.ts';
import { openPlainServer } from './plain.ts';
import { rawSockets, startTimeouts } from './raw-sockets.ts';
import { addStationRoutes } from './routes.ts';
import { sortLine } from './sort-lines.ts';
import { openStationLines } from './station-lines.ts';

export interface StationLineOptions {
  door: StationDoor;
  authority: OpenAuthority;
  /** Folder of the built window. */
  windowFolder: string;
  /** The fixed port: part of every station's origin, so no other is ever tried. */
  port: number;
  /** The shop's name, for the page that explains how to trust it. */
  shop: string;
  /** Timeouts for the first byte and the handshake, for headers, for the whole request, and the check's interval, ms. */
  patience?: typeof PATIENCE;
  /** Limits on open sockets: of strangers and of stations. */
  most?: typeof MAX_OPEN;
}

export interface StationLine {
  /**
   * Listens under these names, with a leaf for them, and under no others. Open lines live on.
   * @throws ProblemError `line.port-taken`, `line.no-address`
   */
  serve(names: LeafNames, now: Date): Promise<void>;
  /** Stops listening and ends every line at once, streams too. */
  close(): void;
}

const PATIENCE = { firstMs: 5_000, headersMs: 5_000, requestMs: 20_000, checkMs: 1_000 };
/** A browser opens six sockets per address: enough for twenty stations, whose hidden pages have none. */
const MAX_OPEN = { anonymous: 128, windows: 256 };

/** Node forgets it with each new certificate. */
const VERSION = { minVersion: 'TLSv1.3' } as const;

/** Opens the line; it listens once `serve` is called. */
export async function openStationLine(options: StationLineOptions): Promise<StationLine> {
  const { authority, port, patience = PATIENCE } = options;
  const limits = limitConnections(options.most ?? MAX_OPEN);
  const raw = rawSockets();
  let hosts: string[] = [];
  let shown = '';
  const app = openApp(patience, limits, raw.of);
  app.addHook('onRequest', async (request, reply) => {
    void reply.headers(stationHeaders(port));
    checkAddress(request.raw);
    checkHost(request.raw, hosts);
    const { origin, isOwn } = checkOrigin(request.raw, hosts, options.door.origins);
    if (origin !== undefined && !isOwn) void reply.headers(sharedWith(origin));
    if (request.is404) throw new RefusedRequest(405, 'invalid', 'request.wrong-method');
  });
  addStationRoutes(app, {
    ...options,
    lines: openStationLines(options.door),
    onAuthenticated: ({ raw: { socket } }) => limits.onAuthenticated(raw.of(socket)),
    ownOrigin: ({ headers: { origin } }) =>
      origin !== undefined && hosts.includes(origin.replace('https://', '')) ? origin : null,
  });
  await app.ready();
  const secure = app.server as Server as SecureServer;
  const plain = openPlainServer({ ...options, patience, hosts: () => hosts });
  raw.follow(secure);
  const listeners = openListeners(port, (socket) => {
    raw.onOpen(socket);
    limits.onOpen(socket);
    sortLine(socket, { secure, plain }, patience.firstMs);
  });
  return {
    async serve(names, now) {
      const leaf = await authority.leafFor(names, now);
      await listeners.listen(names.addresses);
      if (leaf.cert !== shown) secure.setSecureContext({ ...leaf, ...VERSION });
      shown = leaf.cert;
      hosts = hostsOf(names, port);
    },
    close() {
      listeners.close();
      raw.destroyAll();
      for (const server of [secure, plain]) server.close();
      void app.close();
    },
  };
}

type SecureServer = ReturnType<typeof createServer>;

/** Inputs are validated by the desk for every carrier; the framework's own compilers would only slow the start. */
const NO_SCHEMAS = { buildValidator: noSchema, buildSerializer: noSchema };

function noSchema(): never {
  throw new Error('Routes have no schemas.');
}

/** A server without routes, with error handling and socket limits. It never listens itself: sockets are handed to it. */
function openApp(
  { firstMs, headersMs, requestMs, checkMs }: typeof PATIENCE,
  limits: Connections,
  rawOf: (socket: Socket) => Socket,
): FastifyInstance {
  const security = { ...VERSION, ALPNProtocols: ['http/1.1'], handshakeTimeout: firstMs };
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
      createServer({ ...security, ...patience }, (request, response) => {
        const socket = rawOf(request.socket);
        if (!limits.onRequest(socket)) return;
        response.once('close', () => limits.onResponse(socket));
        handle(request, response);
      }),
  });
  app.setErrorHandler(answerError);
  startTimeouts(app.server);
  // What is no handshake gets no answer.
  app.server.removeAllListeners('tlsClientError');
  app.server.on('tlsClientError', (_error: Error, socket: Socket) => socket.destroy());
  return app;

  function answerError(error: unknown, request: FastifyRequest, reply: FastifyReply): void {
    refuse(error, request, reply, limits.isAuthenticated(rawOf(request.raw.socket)));
  }
}
