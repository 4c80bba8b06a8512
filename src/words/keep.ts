import { isLanguage } from './languages.ts';
import { keepLanguage, type Messages } from './speech.ts';

/** Keeps the words of a program in every language, so that it can answer each window in the window's own. */
export function keepAll(words: Readonly<Record<string, Readonly<Record<string, Messages>>>>): void {
  for (const [language, areas] of Object.entries(words))
    if (isLanguage(language)) keepLanguage(language, areas);
}
