/** Why a call was not carried out. The window words `code` with `with`; `field` names the input to mend. */
export interface Problem {
  /** invalid: mend the input; refused: a rule of the trade; conflict: say `confirmed` or look again; missing: not there; broken: our fault. */
  kind: 'invalid' | 'conflict' | 'missing' | 'refused' | 'broken';
  code: string;
  field?: string;
  with?: Record<string, string | number>;
}

export type Answer<T> = { ok: true; value: T } | { ok: false; problem: Problem };

/** Thrown inside a procedure; the desk turns it into an answer, after the transaction was rolled back. */
export class ProblemError extends Error {
  readonly problem: Problem;

  constructor(kind: Problem['kind'], code: string, more: Omit<Problem, 'kind' | 'code'> = {}) {
    super(code);
    this.name = 'ProblemError';
    this.problem = { kind, code, ...more };
  }
}
