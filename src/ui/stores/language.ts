import { useLocalStorage } from '@vueuse/core';
import { defineStore } from 'pinia';
import { shallowRef } from 'vue';
import { isLanguage, SOURCE_LANGUAGE, type Language } from '../../words/languages.ts';
import { loadLanguage } from '../../words/load.ts';
import { speakWith } from '../../words/speech.ts';
import { useShop } from './shop.ts';

/** The language of this window. It belongs to the device and its user, not to the book. */
export const useLanguage = defineStore('language', () => {
  const shop = useShop();
  const chosen = useLocalStorage<string>('gambrel.language', SOURCE_LANGUAGE, {
    writeDefaults: false,
  });
  const current = shallowRef<Language>(SOURCE_LANGUAGE);
  speakWith({ language: () => current.value, writer: () => shop.format });

  /** Speaks the language of the address (`?language=`), else the one chosen on this device. */
  async function start(): Promise<void> {
    const asked = new URLSearchParams(location.search).get('language');
    await speak([asked, chosen.value].find(isLanguage) ?? SOURCE_LANGUAGE);
  }

  /** Chooses the language for this device. */
  async function choose(language: Language): Promise<void> {
    await speak(language);
    chosen.value = language;
  }

  async function speak(language: Language): Promise<void> {
    await loadLanguage(language);
    current.value = language;
    document.documentElement.lang = language;
  }

  return { current, start, choose };
});
