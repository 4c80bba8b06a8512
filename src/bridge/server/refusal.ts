/** Responses to refused requests. */
import type { ServerResponse } from 'node:http';
import type { Duplex } from 'node:stream';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { Problem } from '../../desk/contract/problem.ts';
import { SAFE_HEADERS } from './window-files.ts';

/** Time to read the refusal before the socket is destroyed, ms. */
const READING = 500;

/** A refused request: the HTTP status and the problem. */
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

/** Statuses of the framework itself: an unreadable address, body or content type. */
const OF_FRAMEWORK: Readonly<Record<number, string>> = {
  413: 'request.too-large',
  414: 'request.too-long',
  415: 'request.not-json',
};

/** Sends the refusal, and closes the connection unless it is authenticated. The rest of the body is not awaited. */
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

/** Requests that could not be parsed: too slow, oversized headers, not HTTP. */
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
