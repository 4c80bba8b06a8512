import { watch } from 'vue';
import type { Answer } from '../../bridge/contract.ts';
import { languageOfHunter } from '../../words/hunter-language.ts';
import type { Language } from '../../words/languages.ts';
import { call } from '../link/bridge.ts';
import { loadWords } from '../link/load-words.ts';
import { useShop } from '../stores/shop.ts';
import { makeFormat, type Format } from '../texts/format.ts';
import { useLatest } from '../use/useLatest.ts';

/** How to write to the hunter of an animal. */
export interface HunterSpeech {
  language: Language;
  format: Format;
  /** The species in that language. */
  speciesName: string;
}

/** The language of the hunter of this animal, with its words loaded; null until it is known. */
export function useHunterSpeech(ticket: () => string | undefined) {
  const shop = useShop();
  const { value, show, ask } = useLatest<HunterSpeech>();

  async function speechFor(of: string): Promise<Answer<HunterSpeech>> {
    const animal = await call('animals.get', { ticket: of });
    if (!animal.ok) return animal;
    const language = languageOfHunter(animal.value.hunter.language, shop.locale);
    const [said, problem] = await Promise.all([
      call('animals.get', { ticket: of }, language),
      loadWords(language),
    ]);
    if (!said.ok) return said;
    if (problem) return { ok: false, problem };
    const format = shop.settings ? makeFormat({ ...shop.settings, language }) : shop.format;
    return { ok: true, value: { language, format, speciesName: said.value.species.name } };
  }

  watch(
    ticket,
    (of) => {
      show(null);
      if (of !== undefined) void ask(() => speechFor(of));
    },
    { immediate: true },
  );
  return value;
}
