/** Calls in the language of a window: names in its input are turned into the desk's English, names in the answer into its language. */
import type { Answer } from '../contract/problem.ts';
import type { Language } from '../../words/languages.ts';
import { namesIn, type Names } from './names.ts';
import { slotsOf } from './slots.ts';

/** A call's input with the names that the desk uses, by whatever language they were chosen in. */
export function inputMeant<T>(call: string, input: T, language: Language): T {
  const names = namesIn(language);
  return names ? (walk(input, names.meant, call, call) as T) : input;
}

/** A call's answer with the names of a language, also those that its problem is about. What holds none is handed on, not copied. */
export function answerSaid(call: string, answer: Answer<unknown>, language: Language): Answer<unknown> {
  const names = namesIn(language);
  if (!names) return answer;
  const said = <T>(part: T): T => walk(part, names.said, call, call) as T;
  return answer.ok ? { ok: true, value: said(answer.value) } : { ok: false, problem: said(answer.problem) };
}

/**
 * @param holder the field that the object of this field is in
 * @param code of the nearest thing around it that has one
 */
function walk(value: unknown, turn: Names['said'], holder: string, field: string, code?: string): unknown {
  if (typeof value === 'string') return turned(value, turn, holder, field, code);
  if (Array.isArray(value)) return kept(value, (one) => walk(one, turn, holder, field, code));
  if (!isPlain(value)) return value;
  const own = typeof value.code === 'string' ? value.code : code;
  const entries = Object.entries(value);
  const now = kept(entries, (entry) => {
    const other = walk(entry[1], turn, field, entry[0], own);
    return other === entry[1] ? entry : ([entry[0], other] as [string, unknown]);
  });
  return now === entries ? value : Object.fromEntries(now);
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

/** The list itself while nothing in it changed. */
function kept<T>(list: readonly T[], change: (one: T) => T): readonly T[] {
  const changed = list.map(change);
  return changed.some((one, i) => one !== list[i]) ? changed : list;
}

function isPlain(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype;
}
