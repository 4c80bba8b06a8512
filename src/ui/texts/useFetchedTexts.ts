import { shallowRef } from 'vue';
import { currentLanguage } from '../../words/speech.ts';
import { text } from '../../words/compiled/window/handbook.ts';
import { fetchTexts } from './fetched.ts';

/** Texts of `handbook/pages.arb`, fetched once somebody wants to read them. */
export function useFetchedTexts() {
  const texts = shallowRef<Readonly<Record<string, string>> | null>();
  return {
    ask: async (): Promise<void> => {
      texts.value ??= await fetchTexts(currentLanguage()).catch(() => null);
    },
    /** Empty while they are fetched; a sentence where they are missing. */
    textOf: (key: string): string => (texts.value === null ? text.missing : (texts.value?.[key] ?? '')),
  };
}
