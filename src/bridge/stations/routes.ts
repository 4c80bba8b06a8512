/** What a station may ask over TLS: to be paired, its entrance, people, calls, entries, photographs, the change stream, the window. */
import type { OutgoingHttpHeaders } from 'node:http';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import * as v from 'valibot';
import { ProblemError, type Answer } from '../../desk/contract/problem.ts';
import type { HeldEntries, StationDoor } from '../../desk/contract/stations.ts';
import { CALL_NAME } from '../server/answer.ts';
import { parseJson } from '../server/json-body.ts';
import { RefusedRequest } from '../server/refusal.ts';
import { bearerOf, pathOf } from '../server/sender.ts';
import { windowFile } from '../server/window-files.ts';
import { HELD_HEADER, OPENING_HEADER, PERSON_HEADER } from '../wire.ts';
import { PREFLIGHT_HEADERS } from './headers.ts';
import { addPhotoRoutes } from './photos.ts';
import type { StationLines } from './station-lines.ts';

/** Largest body of pairing and signing in, bytes. */
const SMALL = 1024;
/** Longest name of a browser that is passed on, in characters. */
const MAX_AGENT = 200;
const CALL = '/call/';
/** The page of a device, in the window's folder. */
const STATION_PAGE = '/station.html';

export interface StationRoutes {
  door: StationDoor;
  /** Folder of the built window. */
  windowFolder: string;
  lines: StationLines;
  /** Called when a request presented the secret of a station. */
  onAuthenticated(request: FastifyRequest): void;
  /** The page's origin if it is one of our own addresses, where devices are paired. */
  ownOrigin(request: FastifyRequest): string | null;
}

/** Lines of one device's outbox: it begins one with each pairing. */
const MAX_LINES = 100;

const answeredLine = v.object({
  line: v.pipe(v.string(), v.uuid()),
  last: v.pipe(v.number(), v.safeInteger(), v.minValue(0)),
});
const text = v.pipe(v.string(), v.maxLength(SMALL));

export function addStationRoutes(app: FastifyInstance, routes: StationRoutes): void {
  const { door, lines } = routes;
  app.removeAllContentTypeParsers();
  app.addContentTypeParser(
    'application/json',
    { parseAs: 'buffer' },
    async (_request: FastifyRequest, body: Buffer) => parseJson(body),
  );
  const secrets = new WeakMap<FastifyRequest, string>();
  /** @throws RefusedRequest 401 before any of the body is read */
  const onRequest = async (request: FastifyRequest) => {
    const secret = bearerOf(request.raw);
    const held = heldIn(headerOf(request, HELD_HEADER));
    if (secret !== null && held) door.holds(secret, held);
    secrets.set(request, lines.enter(secret, request.raw.socket));
    routes.onAuthenticated(request);
  };
  const secretOf = (request: FastifyRequest) => secrets.get(request) ?? '';

  app.post('/pairing', { bodyLimit: SMALL }, async (request) => {
    const { code } = read(v.object({ code: text }), request);
    const origin = routes.ownOrigin(request);
    // Only a page of ours that the device trusts: a browser states the origin of every POST.
    if (origin === null) throw new RefusedRequest(403, 'refused', 'request.wrong-origin');
    const device = { agent: agentOf(request), address: request.raw.socket.remoteAddress ?? '', origin };
    return answerOf(() => door.ask(code, device));
  });

  app.post('/pairing/outcome', { bodyLimit: SMALL }, async (request) => {
    const { request: asked } = read(v.object({ request: text }), request);
    return answerOf(() => door.outcome(asked));
  });

  app.post('/station', { onRequest, bodyLimit: SMALL }, async (request) =>
    answerOf(() => door.enter(secretOf(request))),
  );

  app.post('/outbox', { onRequest }, async (request) => {
    const { lines: answered } = read(
      v.object({ lines: v.pipe(v.array(answeredLine), v.maxLength(MAX_LINES)) }),
      request,
    );
    return answerOf(() => door.compare(secretOf(request), answered));
  });

  app.post('/person', { onRequest, bodyLimit: SMALL }, async (request) => {
    const { initials, pin } = read(v.object({ initials: text, pin: text }), request);
    return laterAnswer(door.signIn(secretOf(request), initials, pin));
  });

  app.post('/person/out', { onRequest, bodyLimit: SMALL }, async (request) => {
    const { person } = read(v.object({ person: text }), request);
    return answerOf(() => door.signOut(secretOf(request), person));
  });

  app.post(`${CALL}*`, { onRequest }, async (request) => {
    const name = pathOf(request.raw).slice(CALL.length);
    if (!CALL_NAME.test(name)) throw new RefusedRequest(404, 'missing', 'call.unknown');
    return door.call(secretOf(request), {
      name,
      input: bodyOf(request),
      opening: headerOf(request, OPENING_HEADER) ?? null,
      person: headerOf(request, PERSON_HEADER),
    });
  });

  app.post('/entry', { onRequest }, async (request) => door.take(secretOf(request), bodyOf(request)));

  addPhotoRoutes(app, { door, onRequest, secretOf });

  app.get('/events', { onRequest }, (request, reply) => {
    lines.stream(secretOf(request), reply.raw, reply.getHeaders() as OutgoingHttpHeaders);
    reply.hijack();
  });

  app.options('/*', async (_request, reply) => reply.code(204).headers(PREFLIGHT_HEADERS).send());

  for (const url of [
    '/pairing',
    '/pairing/*',
    '/station',
    '/outbox',
    '/person',
    '/person/*',
    `${CALL}*`,
    '/entry',
  ]) {
    app.get(url, () => {
      throw new RefusedRequest(405, 'invalid', 'request.wrong-method');
    });
  }

  app.route({
    method: ['GET', 'HEAD'],
    url: '/*',
    handler: async (request, reply) => {
      const path = pathOf(request.raw);
      const file = path === '/' ? STATION_PAGE : path;
      const { status, headers, body } = await windowFile(routes.windowFolder, file);
      return reply
        .code(status)
        .headers({ ...headers, ...reply.getHeaders() }) // the policy of stations, not the window's
        .send(body);
    },
  });
}

/** @throws RefusedRequest 415 for a request without body and content type, and for a picture in place of JSON */
function bodyOf({ body }: FastifyRequest): unknown {
  if (body === undefined || Buffer.isBuffer(body))
    throw new RefusedRequest(415, 'invalid', 'request.not-json');
  return body;
}

/** @throws RefusedRequest 400 unless the body has the shape */
function read<T>(shape: v.GenericSchema<T>, request: FastifyRequest): T {
  const body = v.safeParse(shape, bodyOf(request));
  if (!body.success) throw new RefusedRequest(400, 'invalid', 'request.malformed');
  return body.output;
}

function headerOf({ headers }: FastifyRequest, name: string): string | undefined {
  const value = headers[name];
  return typeof value === 'string' ? value : undefined;
}

/** Four numbers; undefined for anything else, as from a page of an earlier version. */
function heldIn(told: string | undefined): HeldEntries | undefined {
  if (!/^\d{1,9}(?: \d{1,9}){3}$/.test(told ?? '')) return undefined;
  const [waiting = 0, unanswered = 0, ofOtherBook = 0, left = 0] = told?.split(' ').map(Number) ?? [];
  return { waiting, unanswered, ofOtherBook, left };
}

function agentOf(request: FastifyRequest): string {
  return (request.headers['user-agent'] ?? '').slice(0, MAX_AGENT);
}

function answerOf<T>(ask: () => T): Answer<T> {
  try {
    return { ok: true, value: ask() };
  } catch (error) {
    return refused(error);
  }
}

async function laterAnswer<T>(asked: Promise<T>): Promise<Answer<T>> {
  try {
    return { ok: true, value: await asked };
  } catch (error) {
    return refused(error);
  }
}

/** A refusal by the desk is an answer; anything else is an error of ours. */
function refused(error: unknown): { ok: false; problem: ProblemError['problem'] } {
  if (error instanceof ProblemError) return { ok: false, problem: error.problem };
  throw error;
}
