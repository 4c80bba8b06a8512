/** Why a call failed. The window words `code` with `with`; `field` names the invalid input. */
export interface Problem {
  /**
   * invalid: correct the input; refused: a rule of the trade; conflict: pass `confirmed` or reload; missing: not
   * found; broken: an internal error.
   */
  kind: 'invalid' | 'conflict' | 'missing' | 'refused' | 'broken';
  code: string;
  field?: string;
  with?: Record<string, string | number>;
}

export type Answer<T> = { ok: true; value: T } | { ok: false; problem: Problem };

/** Thrown inside a procedure; the desk returns it as an answer, after rolling back the transaction. */
export class ProblemError extends Error {
  readonly problem: Problem;

  constructor(kind: Problem['kind'], code: string, more: Omit<Problem, 'kind' | 'code'> = {}) {
    super(code);
    this.name = 'ProblemError';
    this.problem = { kind, code, ...more };
  }
}
