import type { Problem } from '../../bridge/contract.ts';
import { text as hints } from '../../words/compiled/problems/hints.ts';
import { text as kinds } from '../../words/compiled/problems/kinds.ts';
import type { Message } from '../../words/speech.ts';
import { inCurrency, type Format } from './format.ts';
import { sentenceOf } from './problem-sentences.ts';
import { problemValues } from './problem-values.ts';
import { typedWithUnit } from './typed.ts';

/**
 * A problem as a message: what is wrong and how to fix it. A code without a message of its own gets the one of its
 * kind, with the field's name if known, and the code in brackets for support calls.
 * @example say({ kind: 'invalid', code: 'reading.empty' }, format) // 'Type a weight, for example 18.62 …'
 */
export function problemMessage(problem: Problem, format: Format): string {
  const message = sentenceOf(problem.code);
  if (message === undefined) return fallback(problem);
  return [said(message, problem, format), hint(problem, format)].filter(Boolean).join(' ');
}

/** The last name in a path such as `weights.0.typed`. */
export function fieldOf(problem: Problem): string {
  return problem.field?.split(/[.[\]]/).findLast((step) => step !== '' && !/^\d+$/.test(step)) ?? '';
}

/** An amount of an older bill is written in its own currency. */
function said(message: Message, problem: Problem, format: Format): string {
  if (typeof message === 'string') return message;
  const currency = problem.with?.currency;
  const writer = typeof currency === 'string' ? inCurrency(format, currency) : format;
  return String(message(problemValues(problem, format) as never, writer));
}

/** What was probably meant by an unlikely weight, where the desk has a guess. */
function hint({ with: { slip, likely } = {} }: Problem, { unit }: Format): string {
  if (slip === 'weighed-twice' || slip === 'other-animal') return hints[slip];
  if (!likely) return '';
  const typed = typedWithUnit(String(likely), unit);
  return slip === 'tare-left-in' ? hints['tare-left-in']({ typed }) : hints.meant({ typed });
}

function fallback(problem: Problem): string {
  const sentence = kinds[problem.kind]({ code: problem.code });
  const names: Readonly<Record<string, string | undefined>> = kinds.field;
  const field = names[fieldOf(problem)];
  return field === undefined ? sentence : kinds.ofField({ field, sentence });
}
