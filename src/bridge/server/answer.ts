/** The one gate that every call passes, whichever carrier brought it. */
import type { DeskChanged } from '../../desk/desk.ts';
import type { Answer, Problem } from '../../desk/contract/problem.ts';

/** What a carrier needs of the desk. */
export interface DeskCaller {
  call(name: string, input: unknown, opening: string | null): Promise<Answer<unknown>>;
  /** Registers a listener for writes; returns the function that removes it. */
  onChanged(listener: (changed: DeskChanged) => void): () => void;
}

/** A place and a verb, `table.weigh`: nothing that an object inherits (`constructor`, `__proto__`) looks like this. */
const CALL_NAME = /^[a-z]+\.[a-zA-Z]+$/;

/** A refusal in the shape of an answer. Example: `problemAnswer('missing', 'call.unknown')`. */
export function problemAnswer(kind: Problem['kind'], code: string): { ok: false; problem: Problem } {
  return { ok: false, problem: { kind, code } };
}

/**
 * Carries one call to the desk. Never rejects: a name that cannot be a call is `call.unknown`, and a desk that
 * throws is `desk.failed` (the error itself is written to the desk's own log, it does not leave the computer's console).
 */
export async function answerCall(
  desk: DeskCaller,
  name: unknown,
  input: unknown,
  opening: unknown,
): Promise<Answer<unknown>> {
  if (typeof name !== 'string' || !CALL_NAME.test(name)) return problemAnswer('missing', 'call.unknown');
  try {
    // Never undefined: from outside this process a call that names no opening is not meant for whichever is open.
    return await desk.call(name, input, typeof opening === 'string' ? opening : null);
  } catch (error) {
    console.error(`Gambrel: ${name} failed.`, error);
    return problemAnswer('broken', 'desk.failed');
  }
}
