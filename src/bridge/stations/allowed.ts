/** Checks a request's host and origin before anything else of it is read. */
import type { IncomingMessage } from 'node:http';
import { isIPv6 } from 'node:net';
import type { LeafNames } from '../authority/certificates.ts';
import { RefusedRequest } from '../server/refusal.ts';

/** `host:port` of each name and address of a leaf. Example: `192.168.1.5:47115`, `[fd00::5]:47115`. */
export function hostsOf({ host, addresses }: LeafNames, port: number): string[] {
  return [host, ...addresses].map((name) => `${isIPv6(name) ? `[${name}]` : name}:${port}`);
}

/**
 * The host that a request names.
 * @throws RefusedRequest 403 unless it is one of `hosts`: another name that resolves to us is DNS rebinding
 */
export function checkHost(request: IncomingMessage, hosts: readonly string[]): string {
  // Of two Host headers Node returns the first; a proxy may have meant the other.
  const [host, ...more] = request.headersDistinct.host ?? [];
  if (host === undefined || more.length > 0 || !hosts.includes(host))
    throw new RefusedRequest(403, 'refused', 'request.wrong-host');
  return host;
}

/**
 * The origin that a browser states; undefined for a program and for a page's own files.
 * @param registered origins at which stations were paired, which may be former addresses of this computer
 * @throws RefusedRequest 403 for any other page
 */
export function checkOrigin(
  request: IncomingMessage,
  hosts: readonly string[],
  registered: () => readonly string[],
): { origin: string | undefined; isOwn: boolean } {
  const { origin } = request.headers;
  if (origin === undefined) return { origin, isOwn: true };
  if (hosts.some((host) => origin === `https://${host}`)) return { origin, isOwn: true };
  if (registered().includes(origin)) return { origin, isOwn: false };
  throw new RefusedRequest(403, 'refused', 'request.wrong-origin');
}
