/** Calls in the language of a window: names in its input are turned into what the desk keeps, names in the answer into its language. */
import type { Answer } from '../contract/problem.ts';
import type { Language } from '../../words/languages.ts';
import { namesIn, type Names } from './names.ts';
import { slotsOf } from './slots.ts';

/** A call's input with the names that the desk uses, by whatever language they were chosen in. */
export function inputMeant<T>(call: string, input: T, language: Language): T {
  return walk(input, namesIn(language).meant, call, call) as T;
}

/** A call's answer with the names of a language, also those that its problem is about. What holds none is handed on, not copied. */
export function answerSaid(call: string, answer: Answer<unknown>, language: Language): Answer<unknown> {
  const turn = namesIn(language).said;
  const said = <T>(part: T): T => walk(part, turn, call, call) as T;
  return answer.ok ? { ok: true, value: said(answer.value) } : { ok: false, problem: said(answer.problem) };
}

/**
 * The value itself where nothing in it changed: most answers hold no names, and some hold a million numbers.
 * @param holder the field that the object of this field is in
 * @param code of the nearest thing around it that has one
 */
function walk(value: unknown, turn: Names['said'], holder: string, field: string, code?: string): unknown {
  if (typeof value === 'string') return turned(value, turn, holder, field, code);
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return eachTurned(value, (one) => walk(one, turn, holder, field, code)) ?? value;
  if (!isPlain(value)) return value;
  const own = typeof value.code === 'string' ? value.code : code;
  // Of a change in a history, what was changed says what stands before and after.
  const of = 'before' in value && typeof value.field === 'string' ? value.field : field;
  const fields = Object.keys(value);
  const now = eachTurned(Object.values(value), (one, at) => walk(one, turn, of, fields[at] ?? '', own));
  return now ? Object.fromEntries(fields.map((name, at) => [name, now[at]])) : value;
}

/** A copy with each value turned; null while none changed. */
function eachTurned(
  values: readonly unknown[],
  change: (one: unknown, at: number) => unknown,
): unknown[] | null {
  let now: unknown[] | null = null;
  for (let at = 0; at < values.length; at++) {
    const one = values[at];
    const other = typeof one === 'number' ? one : change(one, at);
    if (other !== one) (now ??= [...values])[at] = other;
  }
  return now;
}

function turned(
  text: string,
  turn: Names['said'],
  holder: string,
  field: string,
  code: string | undefined,
): string {
  for (const slot of slotsOf(holder, field)) {
    const other = turn(slot, text, code);
    if (other !== text) return other;
  }
  return text;
}

function isPlain(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype;
}
