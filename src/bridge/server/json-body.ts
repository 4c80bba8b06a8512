/** How the body of a request is read. */
import { RefusedRequest } from './refusal.ts';

/** Largest body of a call, bytes: a form's worth of text. */
export const BODY_LIMIT = 1024 * 1024;

/** Levels of brackets in a body; the deepest call, a layout of a table with its words, has six. */
const MOST_DEPTH = 32;

/**
 * Parses a JSON body, in time that grows with its length and no faster.
 * @throws RefusedRequest 400 for bytes that are no UTF-8, text that is no JSON, and values that no call has
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
 * Refuses a value that would harm whoever walks it carelessly: nested so deep that the walk uses up the stack, or with
 * a member `__proto__`, which a copy would turn into a prototype. The walk itself keeps its own list of what is left.
 */
function refuseOddities(value: unknown): void {
  let level: unknown[] = [value];
  for (let depth = 0; level.length > 0; depth += 1) {
    if (depth > MOST_DEPTH) throw new SyntaxError('nested too deep');
    const next: unknown[] = [];
    for (const one of level) {
      if (typeof one !== 'object' || one === null) continue;
      if (Object.hasOwn(one, '__proto__')) throw new SyntaxError('__proto__ is not a name');
      for (const member of Object.values(one)) if (typeof member === 'object') next.push(member);
    }
    level = next;
  }
}
