/** Problems of what a call was given, and of what it threw. */
import * as v from 'valibot';
import { ValidationError } from '../../core/values/validation-error.ts';
import { problemOfBookError, bookErrorIn } from '../contract/book-problems.ts';
import { ProblemError, type Problem } from '../contract/problem.ts';

/** The first thing that a schema found wrong with an input. */
export function problemOfInput(issue: v.BaseIssue<unknown>): Problem {
  const code = /^[a-z-]+(\.[a-z-]+)+$/.test(issue.message) ? issue.message : 'input.invalid';
  const field = v.getDotPath(issue) ?? undefined;
  return { kind: 'invalid', code, ...(field ? { field } : {}) };
}

/**
 * Errors of the trade, of arithmetic or of the file become a problem with their code; any other is internal and is
 * reported.
 */
export function problemOf(error: unknown, bookPath: string, onBroken: (error: unknown) => void): Problem {
  if (error instanceof ProblemError) return error.problem;
  if (error instanceof ValidationError)
    return {
      kind: 'invalid',
      code: error.code,
      ...(error.field ? { field: error.field } : {}),
      with: { ...error.with },
    };
  const trouble = bookErrorIn(error, bookPath);
  if (trouble) return problemOfBookError(trouble);
  onBroken(error);
  return { kind: 'broken', code: 'desk.broken' };
}
