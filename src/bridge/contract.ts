import type * as v from 'valibot';
import type { Answer } from '../desk/contract/problem.ts';
import type { procedures } from '../desk/procedures.ts';
import type { Stale } from '../desk/reads.ts';

export type { Answer, Problem } from '../desk/contract/problem.ts';
export type * from '../desk/contract/contract.ts';

/** The table of contents of the program: every call that a window can make, with its types. */
type Procedures = typeof procedures;
export type { Stale };
export type CallName = keyof Procedures;
/** Calls that write nothing into the book. */
export type AskName = {
  [N in CallName]: Procedures[N]['kind'] extends 'read' | 'door' ? N : never;
}[CallName];
export type CallInput<N extends CallName> = v.InferInput<Procedures[N]['input']>;
export type CallOutput<N extends CallName> = Awaited<ReturnType<Procedures[N]['run']>>;

/** What changed in the book, so that every open window can look again. */
export interface Changed {
  /** The call that wrote; null where nobody knows. */
  call: CallName | null;
  /** Questions whose answers may not be what they were; null where any may be. */
  stale: Stale | null;
  /** The opening of the book that is open now, null while none is; left out where nobody knows what was missed. */
  opening?: string | null;
}

/** The window's only way to the desk, whatever carries it. */
export interface Bridge {
  /** `opening`: the opening of the book that the call is meant for (`ShopView`); null while the window knows none. */
  call<N extends CallName>(
    name: N,
    input: CallInput<N>,
    opening: string | null,
  ): Promise<Answer<CallOutput<N>>>;
  /** Registers a listener and returns the function that removes it. */
  on(event: 'changed', listener: (changed: Changed) => void): () => void;
}
