/** Makes the invented shop's entries through the procedures that a window calls. */
import * as v from 'valibot';
import type { Book } from '../book/book.ts';
import { ProblemError } from '../desk/contract/problem.ts';
import type { Procedure } from '../desk/session/procedure.ts';
import { procedures } from '../desk/procedures.ts';
import type { YieldKnowledge } from '../desk/learning/yield-knowledge.ts';
import { createSession, type Session } from '../desk/session/session.ts';

type Procedures = typeof procedures;
export type Name = keyof Procedures;
type Asked<N extends Name> = v.InferInput<Procedures[N]['input']>;
type Answered<N extends Name> = ReturnType<Procedures[N]['run']>;

export interface Counter {
  readonly book: Book;
  setClock(at: Date): void;
  now(): Date;
  today(): string;
  call<N extends Name>(name: N, input: Asked<N>): Answered<N>;
  /** Like `call`, but answers each confirmation with yes. */
  confirm<N extends Name>(name: N, input: Asked<N>): Answered<N>;
  /** Refits the yield model to the shop's weights. */
  learn(): void;
}

export function openCounter(book: Book): Counter {
  let clock = new Date(0);
  const whole = createSession({
    book,
    demo: true,
    clock: () => clock,
    host: { openDemo: stay, leaveDemo: stay },
  });
  function stay(): Promise<Session> {
    return Promise.resolve(whole);
  }
  // Refitting after each of thousands of entries would take minutes; `learn` does it at intervals.
  let learned: YieldKnowledge | undefined;
  const session: Session = Object.create(whole, { yields: { get: () => (learned ??= whole.yields) } });

  function call<N extends Name>(name: N, input: Asked<N>): Answered<N> {
    const procedure = procedures[name] as unknown as Procedure;
    const checked = v.parse(procedure.input, input);
    const result =
      procedure.kind === 'write'
        ? book.change(() => procedure.run(session, checked))
        : procedure.run(session, checked);
    return result as Answered<N>;
  }

  return {
    book,
    setClock: (at) => (clock = at),
    now: () => clock,
    today: () => whole.today(),
    call,
    confirm(name, input) {
      try {
        return call(name, input);
      } catch (error) {
        if (!(error instanceof ProblemError) || error.problem.kind !== 'conflict') throw error;
        return call(name, { ...input, confirmed: true });
      }
    },
    learn: () => (learned = undefined),
  };
}
