import { loaders } from './compiled/languages.ts';
import type { Language } from './languages.ts';
import { isLoaded, keepLanguage } from './speech.ts';

/** Loads the words of a language; each language lies in a file of its own. */
export async function loadLanguage(language: Language): Promise<void> {
  const load = loaders[language];
  if (load && !isLoaded(language)) keepLanguage(language, (await load()).words);
}
