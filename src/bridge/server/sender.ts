/** Checks a request's headers before anything else of it is read. */
import type { IncomingMessage } from 'node:http';
import { RefusedRequest } from './refusal.ts';

/** Longest accepted address in characters; our own have under a hundred. */
const MAX_ADDRESS_LENGTH = 1000;

/**
 * Accepts only our own page and programs on this computer. `Host` stops a foreign name that resolves to 127.0.0.1
 * (DNS rebinding); `Origin`, which browsers send with every POST, stops other pages.
 */
export function checkSender(request: IncomingMessage, port: number): void {
  const ours = `127.0.0.1:${port}`;
  // Of two Host headers Node returns the first; a proxy may have meant the other.
  const hosts = request.headersDistinct.host ?? [];
  if (hosts.length !== 1 || hosts[0] !== ours) throw new RefusedRequest(403, 'refused', 'request.wrong-host');
  const { origin } = request.headers;
  if (origin !== undefined && origin !== `http://${ours}`) {
    throw new RefusedRequest(403, 'refused', 'request.wrong-origin');
  }
}

/** Accepts only a short path: no absolute address with another host, as for a proxy. */
export function checkAddress({ url = '' }: IncomingMessage): void {
  if (url.length > MAX_ADDRESS_LENGTH) throw new RefusedRequest(414, 'invalid', 'request.too-long');
  if (!url.startsWith('/')) throw new RefusedRequest(400, 'invalid', 'request.malformed');
}

/** The path of the address as sent, still percent-encoded: each call and file has exactly one spelling. */
export function pathOf({ url = '' }: IncomingMessage): string {
  return url.split('?', 1)[0] ?? '';
}

/** The token after `Authorization: Bearer `, or null. */
export function bearerOf(request: IncomingMessage): string | null {
  return /^Bearer ([\w-]+)$/.exec(request.headers.authorization ?? '')?.[1] ?? null;
}
