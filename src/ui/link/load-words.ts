import type { Problem } from '../../bridge/contract.ts';
import type { Language } from '../../words/languages.ts';
import { loadLanguage } from '../../words/load.ts';

/** Loads the words of a language. @returns null once they can be read, else what to say; asking again tries again */
export async function loadWords(language: Language): Promise<Problem | null> {
  try {
    await loadLanguage(language);
    return null;
  } catch {
    return { kind: 'broken', code: 'words.not-loaded' };
  }
}
