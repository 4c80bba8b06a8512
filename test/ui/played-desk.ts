/** A fake desk with answers set by the test. It throws at a call without an answer. */
import type { Answer } from '../../src/bridge/contract.ts';

type Input = Record<string, unknown>;

interface PlayedDesk {
  /** The calls, in order. */
  calls: { name: string; input: Input }[];
  answers: Record<string, (input: Input) => Answer<unknown> | Promise<Answer<unknown>>>;
  /** Removes answers and calls. */
  begin(): void;
}

export const desk: PlayedDesk = {
  calls: [],
  answers: {},
  begin() {
    desk.calls.length = 0;
    desk.answers = {};
  },
};

/**
 * Replaces `src/bridge/client/index.ts`:
 * `vi.mock('../../src/bridge/client/index.ts', async () => (await import('./played-desk.ts')).client)`.
 */
export const client = {
  connect: async () => ({
    call: async (name: string, input: Input) => {
      desk.calls.push({ name, input: structuredClone(input) });
      const answer = desk.answers[name];
      if (!answer) throw new Error(`Nobody answers for ${name}.`);
      return structuredClone(await answer(input));
    },
    on: () => () => undefined,
  }),
};

export const ok = (value: unknown = {}): Answer<unknown> => ({ ok: true, value });
