/** What the server answers to a request that it does not carry out. */
import type { ServerResponse } from 'node:http';
import type { Duplex } from 'node:stream';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Problem } from '../../desk/contract/problem.ts';
import { SAFE_HEADERS } from './window-files.ts';

/** How long a sender has to read why it was refused before its line is cut, ms. */
const READING = 500;

/** A request that is not carried out: the HTTP status and the problem that says why. */
export class RefusedRequest extends Error {
  readonly status: number;
  readonly problem: Problem;

  constructor(status: number, kind: Problem['kind'], code: string) {
    super(code);
    this.name = 'RefusedRequest';
    this.status = status;
    this.problem = { kind, code };
  }
}

/** Statuses that the framework itself gives: an address, a body or its label that cannot be read. */
const OF_FRAMEWORK: Readonly<Record<number, string>> = {
  413: 'request.too-large',
  414: 'request.too-long',
  415: 'request.not-json',
};

/**
 * Answers with the refusal, and lets go of the line unless its sender has a session. The rest of a body that nobody wants
 * is not waited for.
 */
export function refuse(
  error: unknown,
  request: FastifyRequest,
  reply: FastifyReply,
  keepLine: boolean,
): void {
  const { status, problem } = refusalOf(error);
  const { raw } = request;
  if (reply.raw.headersSent || raw.socket.destroyed) {
    reply.raw.destroy();
    return;
  }
  if (!keepLine || !raw.complete) hangUpAfter(reply.raw);
  void reply.code(status).headers(SAFE_HEADERS).send({ ok: false, problem });
}

function refusalOf(error: unknown): RefusedRequest {
  if (error instanceof RefusedRequest) return error;
  const { statusCode } = error as { statusCode?: number };
  if (statusCode === undefined || statusCode >= 500) {
    console.error('Gambrel: a request failed.', error);
    return new RefusedRequest(500, 'broken', 'desk.failed');
  }
  const code = OF_FRAMEWORK[statusCode];
  return code
    ? new RefusedRequest(statusCode, 'invalid', code)
    : new RefusedRequest(400, 'invalid', 'request.malformed');
}

function hangUpAfter(response: ServerResponse): void {
  response.setHeader('connection', 'close');
  const { socket } = response;
  response.once('finish', () => setTimeout(() => socket?.destroy(), READING).unref());
}

/** Requests that could not even be read: too slow, oversized headers, not HTTP. */
export function refuseRaw(error: NodeJS.ErrnoException, socket: Duplex): void {
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
  setTimeout(() => socket.destroy(), READING).unref();
}
