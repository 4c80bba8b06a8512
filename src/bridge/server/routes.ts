/** Routes of the loopback server: session, call, change stream, files of the window. */
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { LANGUAGE_HEADER, OPENING_HEADER } from '../wire.ts';
import { answerCall, type DeskCaller } from './answer.ts';
import type { Streams } from './http-events.ts';
import { parseJson } from './json-body.ts';
import type { Connections } from './connections.ts';
import { isOfOtherAccount } from './other-account.ts';
import { RefusedRequest } from './refusal.ts';
import { bearerOf, pathOf } from './sender.ts';
import type { Sessions } from './sessions.ts';
import { SAFE_HEADERS, windowFile } from './window-files.ts';

/** Largest body of an unauthenticated request, bytes: a code in JSON. */
const CODE_LIMIT = 1024;
const CALL = '/call/';

interface Counter {
  desk: DeskCaller;
  windowFolder: string;
  lines: Connections;
  sessions: Sessions;
  streams: Streams;
}

export function addRoutes(app: FastifyInstance, counter: Counter): void {
  const { sessions, streams } = counter;
  app.removeAllContentTypeParsers();
  app.addContentTypeParser(
    'application/json',
    { parseAs: 'buffer' },
    async (_request: FastifyRequest, body: Buffer) => parseJson(body),
  );
  const onRequest = async (request: FastifyRequest) => letIn(counter, request);

  app.post('/session', { bodyLimit: CODE_LIMIT }, async (request, reply) => {
    const code = (bodyOf(request) as { code?: unknown } | null)?.code;
    // The code stays valid for the window that it was made for.
    if (sessions.isGood(code) && (await isOfOtherAccount(request.raw.socket))) {
      console.error('Another account on this computer tried to open Gambrel and was turned away.');
      throw new RefusedRequest(403, 'refused', 'session.other-account');
    }
    const session = sessions.admit(code);
    if (session !== null) return reply.headers(SAFE_HEADERS).send({ bearer: session });
    throw sessions.wrong()
      ? new RefusedRequest(429, 'refused', 'session.too-many')
      : new RefusedRequest(401, 'refused', 'session.wrong-code');
  });

  app.post(`${CALL}*`, { onRequest }, async (request, reply) => {
    const name = pathOf(request.raw).slice(CALL.length);
    const { [OPENING_HEADER]: opening, [LANGUAGE_HEADER]: language } = request.headers;
    const answer = await answerCall(counter.desk, name, bodyOf(request), opening, language);
    const unknown = !answer.ok && answer.problem.code === 'call.unknown';
    return reply
      .code(unknown ? 404 : 200)
      .headers(SAFE_HEADERS)
      .send(answer);
  });

  app.get('/events', { onRequest }, (request, reply) => {
    if (!streams.open(reply.raw, bearerOf(request.raw) ?? ''))
      throw new RefusedRequest(503, 'refused', 'request.too-many');
    reply.hijack();
  });

  for (const url of ['/session', `${CALL}*`]) {
    app.get(url, () => {
      throw new RefusedRequest(405, 'invalid', 'request.wrong-method');
    });
  }

  app.route({
    method: ['GET', 'HEAD'],
    url: '/*',
    handler: async (request, reply) => {
      const { status, headers, body } = await windowFile(counter.windowFolder, pathOf(request.raw));
      return reply.code(status).headers(headers).send(body);
    },
  });
}

/** @throws RefusedRequest 401 before any of the body is read */
function letIn({ sessions, lines }: Counter, { raw }: FastifyRequest): void {
  if (!sessions.knows(bearerOf(raw))) throw new RefusedRequest(401, 'refused', 'session.unknown');
  lines.onAuthenticated(raw.socket);
}

/** @throws RefusedRequest 415 for a request without body and content type */
function bodyOf({ body }: FastifyRequest): unknown {
  if (body === undefined) throw new RefusedRequest(415, 'invalid', 'request.not-json');
  return body;
}
