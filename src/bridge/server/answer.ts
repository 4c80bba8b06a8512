/** The entry point of every call, for all carriers. */
import type { DeskChanged } from '../../desk/desk.ts';
import type { Answer, Problem } from '../../desk/contract/problem.ts';
import { isLanguage, SOURCE_LANGUAGE, type Language } from '../../words/languages.ts';

/** The interface of the desk for carriers. */
export interface DeskCaller {
  call(name: string, input: unknown, opening: string | null, language: Language): Promise<Answer<unknown>>;
  /** Registers a listener for writes; returns the function that removes it. */
  onChanged(listener: (changed: DeskChanged) => void): () => void;
}

/** A place and a verb, `table.weigh`: no inherited member (`constructor`, `__proto__`) matches. */
export const CALL_NAME = /^[a-z]+\.[a-zA-Z]+$/;

/** A refusal as an answer. Example: `problemAnswer('missing', 'call.unknown')`. */
export function problemAnswer(kind: Problem['kind'], code: string): { ok: false; problem: Problem } {
  return { ok: false, problem: { kind, code } };
}

/**
 * Passes one call to the desk. Never rejects: an invalid name is `call.unknown`, and a desk that throws is
 * `desk.failed` (the error itself is only written to the desk's log).
 */
export async function answerCall(
  desk: DeskCaller,
  name: unknown,
  input: unknown,
  opening: unknown,
  language: unknown,
): Promise<Answer<unknown>> {
  if (typeof name !== 'string' || !CALL_NAME.test(name)) return problemAnswer('missing', 'call.unknown');
  try {
    // Never undefined: a call from outside this process that names no opening must not reach whichever is open.
    const forBook = typeof opening === 'string' ? opening : null;
    return await desk.call(name, input, forBook, isLanguage(language) ? language : SOURCE_LANGUAGE);
  } catch (error) {
    console.error(`Gambrel: ${name} failed.`, error);
    return problemAnswer('broken', 'desk.failed');
  }
}
