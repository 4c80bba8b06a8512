/** The cells of our own exports, which are in the language of the window that asked for them. */
import { text as english } from '../../words/compiled/desk/export.ts';
import { languages, SOURCE_LANGUAGE, type Language } from '../../words/languages.ts';
import { inLanguage } from '../../words/of-desk.ts';
import type { WordField } from '../contract/contract.ts';
import { allNames, namesIn } from '../names/names.ts';
import { folded } from './fields.ts';

type Coded = Exclude<WordField, 'species'>;

/** English comes last: where a word of another language is also one of English, that holds. */
const LANGUAGES = (Object.keys(languages) as Language[]).toSorted((a) => (a === SOURCE_LANGUAGE ? 1 : -1));

/** The folded words for the values of a field, each with its value. */
export function exportedWords(field: Coded): (readonly [string, string])[] {
  return LANGUAGES.flatMap((language) =>
    Object.entries(inLanguage(english, language).words[field]).map(
      ([value, word]) => [folded(word), value] as const,
    ),
  );
}

/** The folded names of supplied species, each with its code. */
export function exportedSpecies(): (readonly [string, string])[] {
  return LANGUAGES.flatMap((language) =>
    [...allNames(language)].flatMap(([key, name]) => {
      const code = /^species\.(.+)\.name$/.exec(key)?.[1];
      return code === undefined ? [] : [[folded(name), code] as const];
    }),
  );
}

/** A product as the book names it. @example productKept('Chuletas') // 'Chops' */
export function productKept(name: string): string {
  return (
    LANGUAGES.map((language) => namesIn(language).meant('product.*', name)).find((one) => one !== name) ??
    name
  );
}
