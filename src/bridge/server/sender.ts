/** Who may ask: what a request's headers must say before anything else of it is looked at. */
import type { IncomingMessage } from 'node:http';
import { RefusedRequest } from './refusal.ts';

/** Longest address that is read, characters: the longest of ours, a call or a built file, has under a hundred. */
const LONGEST_ADDRESS = 1000;

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

/** Takes only a short path: no whole address with another host in it, as a proxy would be asked. */
export function checkAddress({ url = '' }: IncomingMessage): void {
  if (url.length > LONGEST_ADDRESS) throw new RefusedRequest(414, 'invalid', 'request.too-long');
  if (!url.startsWith('/')) throw new RefusedRequest(400, 'invalid', 'request.malformed');
}

/** The path of the address as it was sent, still percent-encoded: a call or a file has one spelling alone. */
export function pathOf({ url = '' }: IncomingMessage): string {
  return url.split('?', 1)[0] ?? '';
}

/** The token after `Authorization: Bearer `, or null. */
export function bearerOf(request: IncomingMessage): string | null {
  return /^Bearer ([\w-]+)$/.exec(request.headers.authorization ?? '')?.[1] ?? null;
}
