import { useSessionStorage } from '@vueuse/core';
import { defineStore } from 'pinia';
import { useShop } from './shop.ts';

/**
 * Which cautions were shown in full at this window today. What was shown yesterday is shown in full again; a restart or a fault of
 * the storage shows them again, never less.
 */
export const useSeenCautions = defineStore('seen-cautions', () => {
  const shop = useShop();
  const seen = useSessionStorage<{ day: string; codes: string[] }>('gambrel.cautions', {
    day: '',
    codes: [],
  });
  const today = (): string[] => (seen.value.day === shop.today ? seen.value.codes : []);

  function add(codes: readonly string[]): void {
    seen.value = { day: shop.today, codes: [...new Set([...today(), ...codes])] };
  }
  return { has: (code: string) => today().includes(code), add };
});
