import { computed } from 'vue';
import { useShop } from '../stores/shop.ts';
import type { Writing } from './package-label.ts';

/** The shop's formats of weights and dates on labels. */
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
