/** A fake desk with answers set by the test. It throws at a call without an answer. */
import type { Answer, Changed } from '../../src/bridge/contract.ts';
import type { Language } from '../../src/words/languages.ts';

type Input = Record<string, unknown>;

interface PlayedDesk {
  /** The calls, in order. */
  calls: { name: string; input: Input }[];
  /** The language of each call, in order. */
  languages: Language[];
  answers: Record<string, (input: Input) => Answer<unknown> | Promise<Answer<unknown>>>;
  /** Removes answers and calls. */
  begin(): void;
  /** Tells the window that anything may have changed. */
  changes(): void;
}

const listeners = new Set<(changed: Changed) => void>();

export const desk: PlayedDesk = {
  calls: [],
  languages: [],
  answers: {},
  begin() {
    desk.calls.length = 0;
    desk.languages.length = 0;
    desk.answers = {};
    listeners.clear();
  },
  changes() {
    for (const listener of listeners) listener({ call: null, stale: null });
  },
};

/**
 * Replaces `src/bridge/client/index.ts`:
 * `vi.mock('../../src/bridge/client/index.ts', async () => (await import('./played-desk.ts')).client)`.
 */
export const client = {
  connect: async () => ({
    call: async (name: string, input: Input, _opening: string | null, language: Language) => {
      desk.languages.push(language);
      desk.calls.push({ name, input: structuredClone(input) });
      const answer = desk.answers[name];
      if (!answer) throw new Error(`Nobody answers for ${name}.`);
      return structuredClone(await answer(input));
    },
    on: (_event: 'changed', listener: (changed: Changed) => void) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  }),
};

export const ok = (value: unknown = {}): Answer<unknown> => ({ ok: true, value });
