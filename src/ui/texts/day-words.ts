/** Words for days and months: those of the window's language, and the English ones in every language. */
import { text } from '../../words/compiled/shared/days.ts';
import { SOURCE_LANGUAGE } from '../../words/languages.ts';
import { currentLanguage } from '../../words/speech.ts';
import { inLanguage } from '../../words/area.ts';
import { plainLetters } from './plain-letters.ts';

/** Minimum letters of a shortened word. */
const LETTERS = 3;
const english = inLanguage(text, SOURCE_LANGUAGE);

/** The days from today that a word says: 0 for `today` or `tod`; null if it is none. */
export function dayOf(typed: string): -1 | 0 | 1 | null {
  if (typed.length < LETTERS) return null;
  const says = (name: 'today' | 'yesterday' | 'tomorrow'): boolean =>
    [text, english].some((words) => begins(words[name], typed));
  return says('today') ? 0 : says('yesterday') ? -1 : says('tomorrow') ? 1 : null;
}

/** The number of a month, 1 to 12: 11 for `nov` or `November`; null if it is none. */
export function monthOf(typed: string): number | null {
  if (typed.length < LETTERS) return null;
  for (const language of [currentLanguage(), SOURCE_LANGUAGE]) {
    const at = monthNames(language).findIndex((name) => begins(name, typed));
    if (at >= 0) return at + 1;
  }
  return null;
}

function monthNames(language: string): string[] {
  const { format } = new Intl.DateTimeFormat(language, { month: 'long', timeZone: 'UTC' });
  return Array.from({ length: 12 }, (_, month) => format(Date.UTC(2026, month, 1)));
}

/** Small letters and accents make no difference: `aou` begins `août`. */
function begins(word: string, typed: string): boolean {
  return plainLetters(word).startsWith(plainLetters(typed));
}
