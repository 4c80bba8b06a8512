/** The languages of the program. Each has a folder of this name beside this file, except the pseudo-language. */
interface LanguageLine {
  /** In the language itself. */
  name: string;
  /** The language whose words hold where this one says nothing: only a variant has one. */
  over?: string;
  /** Being translated: what it lacks is said in English, and it is offered once it lacks nothing. */
  draft?: true;
  /** Generated from en-US to try layouts: longer, with accents, in brackets. Nobody is offered it. */
  generated?: true;
}

export const languages = {
  'en-US': { name: 'English (United States)' },
  'en-CA': { name: 'English (Canada)', over: 'en-US' },
  'es-MX': { name: 'Español (México)' },
  'fr-CA': { name: 'Français (Canada)' },
  qps: { name: '[Þšéûðö]', generated: true },
} as const satisfies Record<string, LanguageLine>;

export type Language = keyof typeof languages;

/** The same lines by any code. */
export const languageLines: Readonly<Record<string, LanguageLine>> = languages;

/** The language that the others are translated from, and the only one that is always loaded. */
export const SOURCE_LANGUAGE = 'en-US';

/** @example isLanguage('xx') // false */
export function isLanguage(code: unknown): code is Language {
  return typeof code === 'string' && Object.hasOwn(languages, code);
}
