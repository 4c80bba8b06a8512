import { computed } from 'vue';
import type { Language } from '../../words/languages.ts';
import { useShop } from '../stores/shop.ts';
import { makeFormat } from '../texts/format.ts';
import type { Writing } from './package-label.ts';

/** The shop's formats of weights and dates on labels, in the window's language. */
export function useWriting() {
  const shop = useShop();
  return computed<Writing>(() => ({
    unit: shop.unit,
    locale: shop.locale,
    zone: shop.zone,
    longDay: shop.format.longDay,
    kindOf: (product) =>
      shop.view?.products.find(({ name }) => name.toLowerCase() === product.trim().toLowerCase())?.kind,
  }));
}

/** The same in another language. */
export function useWritingIn(): (language: Language) => Writing {
  const shop = useShop();
  const writing = useWriting();
  return (language) => ({
    ...writing.value,
    language,
    ...(shop.settings && { longDay: makeFormat({ ...shop.settings, language }).longDay }),
  });
}
