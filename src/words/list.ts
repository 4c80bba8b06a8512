import type { Language } from './languages.ts';
import { currentLanguage } from './speech.ts';

const formats = new Map<string, Intl.ListFormat>();

/**
 * Items as a list of a language, by default the current one.
 * @example listText(['cape', 'antlers'], 'and') // 'cape and antlers'
 * @example listText(['cape', 'antlers']) // 'cape, antlers'
 */
export function listText(
  items: readonly string[],
  join: 'and' | 'or' | 'comma' = 'comma',
  language: Language = currentLanguage(),
): string {
  const key = `${language} ${join}`;
  let format = formats.get(key);
  if (!format) formats.set(key, (format = listFormat(language, join)));
  return format.format(items);
}

function listFormat(language: string, join: 'and' | 'or' | 'comma'): Intl.ListFormat {
  if (join === 'comma') return new Intl.ListFormat(language, { type: 'unit', style: 'short' });
  return new Intl.ListFormat(language, { type: join === 'and' ? 'conjunction' : 'disjunction' });
}
