import type * as v from 'valibot';
import type { Answer } from '../desk/contract/problem.ts';
import type { procedures } from '../desk/procedures.ts';
import type { Stale } from '../desk/reads.ts';
import type { Language } from '../words/languages.ts';

export type { Answer, Problem } from '../desk/contract/problem.ts';
export type * from '../desk/contract/contract.ts';

/** Every call that a window can make, with its types. */
type Procedures = typeof procedures;
export type { Stale };
export type CallName = keyof Procedures;
/** Calls that do not write to the book. */
export type AskName = {
  [N in CallName]: Procedures[N]['kind'] extends 'read' | 'door' ? N : never;
}[CallName];
export type CallInput<N extends CallName> = v.InferInput<Procedures[N]['input']>;
export type CallOutput<N extends CallName> = Awaited<ReturnType<Procedures[N]['run']>>;

/** A change of the book, by which every open window refetches. */
export interface Changed {
  /** The call that wrote; null if unknown. */
  call: CallName | null;
  /** Queries whose answers may be outdated; null for any. */
  stale: Stale | null;
  /** The current opening of the book, null while none is open; absent if events may have been missed. */
  opening?: string | null;
}

/** The window's connection to the desk, independent of the carrier. */
export interface Bridge {
  /**
   * `opening`: the opening of the book that the call is meant for (`ShopView`); null before the window knows one. `language`: that in
   * which built-in things are named, in the input and in the answer.
   */
  call<N extends CallName>(
    name: N,
    input: CallInput<N>,
    opening: string | null,
    language: Language,
  ): Promise<Answer<CallOutput<N>>>;
  /** Registers a listener and returns the function that removes it. */
  on(event: 'changed', listener: (changed: Changed) => void): () => void;
}
