import { defineStore } from 'pinia';
import { ref, watch } from 'vue';

/** The opening of a book that this window shows. */
export const useOpening = defineStore('opening', () => {
  /** The opening that this window's calls are meant for; null before the first answer, and while no book is open. */
  const shown = ref<string | null>(null);
  return { shown };
});

/**
 * Resets a store when another opening is shown: record ids, drafts and undo actions of one book are invalid in
 * another. Call it in the store's setup.
 */
export function onOtherOpening(reset: () => void): void {
  const opening = useOpening();
  watch(() => opening.shown, reset, { flush: 'sync' });
}
