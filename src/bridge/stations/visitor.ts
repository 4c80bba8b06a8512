/** What a browser says of itself: the languages it prefers, and the kind of device. */
import { languageLines, languages, SOURCE_LANGUAGE, type Language } from '../../words/languages.ts';

export const DEVICES = ['ipad', 'android', 'windows', 'macos', 'linux'] as const;
export type Device = (typeof DEVICES)[number];

const OFFERED = (Object.keys(languages) as Language[]).filter(
  (code) => !languageLines[code]?.generated && !languageLines[code]?.draft,
);

/** The languages that a page may be read in besides. */
export function offered(besides: Language): Language[] {
  return OFFERED.filter((language) => language !== besides);
}

/**
 * The language that was asked for, else the first that the browser accepts: exactly, or in another country.
 * Example: `languageFor(null, 'es-ES,es;q=0.9')` is `es-MX`.
 * @param accepts the header `Accept-Language`, whose order browsers keep by preference
 */
export function languageFor(asked: string | null, accepts: string): Language {
  const wanted = [asked ?? '', ...accepts.split(',').map((one) => one.split(';', 1)[0]?.trim() ?? '')];
  for (const one of wanted) {
    const known =
      OFFERED.find((language) => language === one) ??
      OFFERED.find((language) => one !== '' && language.split('-')[0] === one.split('-')[0]);
    if (known) return known;
  }
  return SOURCE_LANGUAGE;
}

/** The kinds of device that a browser's name fits: an iPad calls itself a Mac. */
export function devicesOf(agent: string): Device[] {
  if (/Android/.test(agent)) return ['android'];
  if (/iPhone|iPad/.test(agent)) return ['ipad'];
  if (/Windows/.test(agent)) return ['windows'];
  if (/Macintosh/.test(agent)) return ['ipad', 'macos'];
  if (/Linux|CrOS/.test(agent)) return ['linux'];
  return [];
}
