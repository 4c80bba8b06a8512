/** The language of what a hunter gets. A shop's own follows from where its formats are from. */
import type { Language } from './languages.ts';

/** What a hunter may choose. */
export const HUNTER_LANGUAGES = ['en-US', 'en-CA', 'es-MX', 'fr-CA'] as const satisfies readonly Language[];
export type HunterLanguage = (typeof HUNTER_LANGUAGES)[number];

/** @example isHunterLanguage('') // false */
export function isHunterLanguage(code: unknown): code is HunterLanguage {
  return HUNTER_LANGUAGES.some((one) => one === code);
}

/**
 * The language in which a shop speaks to its hunters.
 * @param locale of its formats
 * @example shopLanguage('fr-CA') // 'fr-CA'; shopLanguage('es-US') // 'es-MX'; shopLanguage('de-DE') // 'en-US'
 */
export function shopLanguage(locale: string): HunterLanguage {
  const { language, region } = new Intl.Locale(locale);
  if (language === 'fr') return 'fr-CA';
  if (language === 'es') return 'es-MX';
  return region === 'CA' ? 'en-CA' : 'en-US';
}

/** The hunter's own language, else the shop's. */
export function languageOfHunter(language: HunterLanguage | '', locale: string): HunterLanguage {
  return language === '' ? shopLanguage(locale) : language;
}

/**
 * The languages that stand on a label, first one first. In Canada both official ones do (CFIA, Safe Food for Canadians Regulations
 * s. 206; whether custom packs are meant is not said in what was read, so both are the safe default), the shop's own before the other.
 * Elsewhere English leads, as inspectors read it (9 CFR 317.16), and the hunter's language follows.
 */
export function labelLanguages(language: HunterLanguage | '', locale: string): HunterLanguage[] {
  if (new Intl.Locale(locale).region === 'CA')
    return shopLanguage(locale) === 'fr-CA' ? ['fr-CA', 'en-CA'] : ['en-CA', 'fr-CA'];
  const own = languageOfHunter(language, locale);
  return own === 'en-US' || own === 'en-CA' ? [own] : ['en-US', own];
}

/**
 * What a shop wrote for hunters of a language: exactly, or as another country speaks it; undefined if it wrote nothing for them.
 * @example writtenFor({ 'en-CA': 'Pick up soon.' }, 'en-US') // 'Pick up soon.'
 */
export function writtenFor(
  texts: Partial<Record<HunterLanguage, string>>,
  language: HunterLanguage,
): { language: HunterLanguage; text: string } | undefined {
  const written = HUNTER_LANGUAGES.flatMap((code) =>
    texts[code] ? [{ language: code, text: texts[code] }] : [],
  );
  return (
    written.find((one) => one.language === language) ??
    written.find((one) => one.language.slice(0, 2) === language.slice(0, 2))
  );
}
