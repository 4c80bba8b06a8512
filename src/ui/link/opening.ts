import { defineStore } from 'pinia';
import { ref, watch } from 'vue';

/** The opening of a book that this window shows. */
export const useOpening = defineStore('opening', () => {
  /** What calls of this window are meant for; null before the first look at the shop, and while no book is open. */
  const shown = ref<string | null>(null);
  return { shown };
});

/**
 * Clears a store when another opening is shown: record numbers, half-typed entries and ways back of one book mean
 * something else in another. Call it where the store is set up.
 */
export function onOtherOpening(reset: () => void): void {
  const opening = useOpening();
  watch(() => opening.shown, reset, { flush: 'sync' });
}
