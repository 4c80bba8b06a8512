/** Headers of everything that stations get over TLS. */
import { SAFE_HEADERS, WINDOW_POLICY } from '../server/window-files.ts';
import { HELD_HEADER, OPENING_HEADER, PERSON_HEADER } from '../wire.ts';

/** Time for which a browser remembers the answer to a preflight, seconds. */
const PREFLIGHT_LASTS = 600;

/**
 * The window's policy, with what a station needs besides. A station's page keeps the policy with which it was stored, so
 * it allows any address of the desk from the start: after a change of address, entries go to the new one.
 */
export function stationHeaders(port: number): Record<string, string> {
  const policy = WINDOW_POLICY.replace("img-src 'self' data:", "img-src 'self' data: blob:").replace(
    "connect-src 'self'",
    `connect-src 'self' https://*:${port}`,
  );
  return {
    ...SAFE_HEADERS,
    'content-security-policy': `${policy}; worker-src 'self'; manifest-src 'self'`,
  };
}

/** Lets the page of a registered origin read the answer (CORS, Fetch standard). */
export function sharedWith(origin: string): Record<string, string> {
  return { 'access-control-allow-origin': origin, vary: 'origin' };
}

/** The answer to a preflight, besides. */
export const PREFLIGHT_HEADERS: Readonly<Record<string, string>> = {
  'access-control-allow-methods': 'GET, POST, PUT',
  'access-control-allow-headers': `authorization, content-type, ${OPENING_HEADER}, ${PERSON_HEADER}, ${HELD_HEADER}`,
  'access-control-max-age': String(PREFLIGHT_LASTS),
};
