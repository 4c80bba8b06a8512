/** Parses request bodies. */
import { RefusedRequest } from './refusal.ts';

/** Largest body of a call, bytes. */
export const BODY_LIMIT = 1024 * 1024;

/** Maximum nesting depth of a body; the deepest call, a table layout with its words, has six levels. */
const MAX_DEPTH = 32;

/**
 * Parses a JSON body in linear time.
 * @throws RefusedRequest 400 for invalid UTF-8, invalid JSON, and values that no call has
 */
export function parseJson(body: Uint8Array): unknown {
  try {
    const value: unknown = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(body));
    refuseOddities(value);
    return value;
  } catch {
    throw new RefusedRequest(400, 'invalid', 'request.malformed');
  }
}

/**
 * Refuses values that could harm a recursive walk: nesting deep enough to exhaust the stack, or a member
 * `__proto__`, which a copy would turn into a prototype. The walk itself is iterative.
 */
function refuseOddities(value: unknown): void {
  let level: unknown[] = [value];
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > MAX_DEPTH) throw new SyntaxError('nested too deep');
    const next: unknown[] = [];
    for (const one of level) {
      if (typeof one !== 'object' || one === null) continue;
      if (Object.hasOwn(one, '__proto__')) throw new SyntaxError('__proto__ is not a name');
      for (const member of Object.values(one)) if (typeof member === 'object') next.push(member);
    }
    level = next;
  }
}
