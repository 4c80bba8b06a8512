/** Who may ask, and how a request's body is read: every check of the loopback server, one answer for each failure. */
import type { IncomingMessage } from 'node:http';
import type { Problem } from '../../desk/problem.ts';

/** Largest body that is read, bytes: a call is a form's worth of text. */
export const BODY_LIMIT = 1024 * 1024;

/** Levels of brackets in a body; the deepest call, a layout of a table with its words, has six. */
const MOST_DEPTH = 32;

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

/**
 * Lets only our own page and programs on this computer in. `Host` stops a foreign name that was pointed at
 * 127.0.0.1 (DNS rebinding); `Origin`, which browsers send with every POST, stops other pages.
 */
export function checkSender(request: IncomingMessage, port: number): void {
  const ours = `127.0.0.1:${port}`;
  // Of two hosts Node would tell the first; whoever passed the request on may have meant the other.
  const hosts = request.headersDistinct.host ?? [];
  if (hosts.length !== 1 || hosts[0] !== ours) throw new RefusedRequest(403, 'refused', 'request.wrong-host');
  const { origin } = request.headers;
  if (origin !== undefined && origin !== `http://${ours}`) {
    throw new RefusedRequest(403, 'refused', 'request.wrong-origin');
  }
}

/** The token after `Authorization: Bearer `, or null. */
export function bearerOf(request: IncomingMessage): string | null {
  return /^Bearer ([\w-]+)$/.exec(request.headers.authorization ?? '')?.[1] ?? null;
}

/**
 * Reads a JSON body.
 * @throws RefusedRequest 415 not JSON by its label, 413 above `BODY_LIMIT`, 400 not readable as JSON
 */
export async function readJson(request: IncomingMessage): Promise<unknown> {
  if (!/^application\/json(;|$)/i.test(request.headers['content-type'] ?? '')) {
    throw new RefusedRequest(415, 'invalid', 'request.not-json');
  }
  const body = await readBody(request);
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(body);
    refuseDepth(text);
    return JSON.parse(text, refusePrototype);
  } catch {
    throw new RefusedRequest(400, 'invalid', 'request.malformed');
  }
}

/** What a call says is never nested deeper than a few levels; going down thousands of them would use up the stack. */
function refuseDepth(text: string): void {
  let depth = 0;
  for (const [mark] of text.matchAll(/"(?:[^"\\]|\\.)*"|[[\]{}]/gs)) {
    if (mark === '[' || mark === '{') depth += 1;
    else if (mark === ']' || mark === '}') depth -= 1;
    if (depth > MOST_DEPTH) throw new SyntaxError('nested too deep');
  }
}

/** `__proto__` in JSON becomes an own key that a careless copy would turn into a prototype. */
function refusePrototype(key: string, value: unknown): unknown {
  if (key === '__proto__') throw new SyntaxError('__proto__ is not a name');
  return value;
}

async function readBody(request: IncomingMessage): Promise<Buffer> {
  const tooLarge = () => new RefusedRequest(413, 'invalid', 'request.too-large');
  if (Number(request.headers['content-length'] ?? 0) > BODY_LIMIT) throw tooLarge();
  const pieces: Buffer[] = [];
  let length = 0;
  return new Promise((resolve, reject) => {
    request.on('data', (piece: Buffer) => {
      length += piece.length;
      if (length > BODY_LIMIT) reject(tooLarge());
      else pieces.push(piece);
    });
    request.on('end', () => resolve(Buffer.concat(pieces)));
    request.on('error', () => reject(new RefusedRequest(400, 'invalid', 'request.broken-off')));
  });
}
