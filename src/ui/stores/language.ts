import { useLocalStorage, useSessionStorage } from '@vueuse/core';
import { defineStore } from 'pinia';
import { shallowRef } from 'vue';
import { isLanguage, SOURCE_LANGUAGE, type Language } from '../../words/languages.ts';
import { speakWith } from '../../words/speech.ts';
import type { Problem } from '../../bridge/contract.ts';
import { loadWords } from '../link/load-words.ts';
import { spokenHere } from '../link/spoken.ts';
import { useShop } from './shop.ts';

const KEY = 'gambrel.language';
const STORED = { writeDefaults: false, listenToStorageChanges: false };

/** The language of this window. It belongs to the device and its user, not to the book. */
export const useLanguage = defineStore('language', () => {
  const shop = useShop();
  /** Of this window, which keeps its own through a reload whatever another window chooses. */
  const own = useSessionStorage(KEY, '', STORED);
  /** The last choice on this device: that of new windows. */
  const chosen = useLocalStorage<string>(KEY, SOURCE_LANGUAGE, STORED);
  const current = shallowRef<Language>(SOURCE_LANGUAGE);
  /** Why the language that was asked for last is not spoken. */
  const problem = shallowRef<Problem | null>(null);
  speakWith({ language: () => spokenHere()?.value ?? current.value, writer: () => shop.format });

  /** Speaks the language of the address (`?language=`), else that of this window, else the last one chosen. */
  async function start(): Promise<void> {
    const asked = new URLSearchParams(location.search).get('language');
    await speak([asked, own.value, chosen.value].find(isLanguage) ?? SOURCE_LANGUAGE);
  }

  /** Chooses the language for this window, and for new ones on this device. */
  async function choose(language: Language): Promise<void> {
    if (await speak(language)) own.value = chosen.value = language;
  }

  async function speak(language: Language): Promise<boolean> {
    problem.value = await loadWords(language);
    if (problem.value) return false;
    current.value = language;
    document.documentElement.lang = language;
    window.gambrel?.speak(language);
    return true;
  }

  return { current, problem, start, choose };
});
