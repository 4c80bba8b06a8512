import type { Problem } from '../../bridge/contract.ts';
import type { Format } from './format.ts';
import { fieldNames, kindWording, problemWording } from './en/problems.ts';

/**
 * A problem as a message: what is wrong and how to fix it. A code without a message of its own gets the one of its
 * kind, with the field's name if known, and the code in brackets for support calls.
 * @example say({ kind: 'invalid', code: 'reading.empty' }, format) // 'Type a weight, for example 18.62 …'
 */
export function problemMessage(problem: Problem, format: Format): string {
  const wording = problemWording[problem.code];
  if (wording) return wording(problem.with ?? {}, format);
  const field = fieldNames[fieldOf(problem)];
  const sentence = kindWording[problem.kind];
  return field ? `${capital(field)}: ${sentence} (${problem.code})` : `${sentence} (${problem.code})`;
}

/** The last name in a path such as `weights.0.typed`. */
export function fieldOf(problem: Problem): string {
  return problem.field?.split(/[.[\]]/).findLast((step) => step !== '' && !/^\d+$/.test(step)) ?? '';
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
