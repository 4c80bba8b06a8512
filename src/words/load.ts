import { loaders } from './compiled/languages.ts';
import type { Language } from './languages.ts';
import { keepLanguage } from './speech.ts';

const loading = new Map<Language, Promise<void>>();

/** Loads the window's words of a language; each language lies in a file of its own. What failed is tried again when asked again. */
export function loadLanguage(language: Language): Promise<void> {
  const started = loading.get(language) ?? load(language);
  loading.set(language, started);
  started.catch(() => loading.delete(language));
  return started;
}

async function load(language: Language): Promise<void> {
  const words = await loaders[language]?.();
  if (words) keepLanguage(language, words.words);
}
