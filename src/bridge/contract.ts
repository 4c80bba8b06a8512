import type * as v from 'valibot';
import type { Answer } from '../desk/problem.ts';
import type { procedures } from '../desk/procedures.ts';

export type { Answer, Problem } from '../desk/problem.ts';
export type * from '../desk/shapes.ts';

/** The table of contents of the program: every call that a window can make, with its types. */
type Procedures = typeof procedures;
export type CallName = keyof Procedures;
export type CallInput<N extends CallName> = v.InferInput<Procedures[N]['input']>;
export type CallOutput<N extends CallName> = Awaited<ReturnType<Procedures[N]['run']>>;

/** What changed in the book, so that every open window can look again. */
export interface Changed {
  /** The call that wrote. */
  call: CallName;
}

/** The window's only way to the desk, whatever carries it. */
export interface Bridge {
  call<N extends CallName>(name: N, input: CallInput<N>): Promise<Answer<CallOutput<N>>>;
  /** Registers a listener and returns the function that removes it. */
  on(event: 'changed', listener: (changed: Changed) => void): () => void;
}
