import { useMutationObserver } from '@vueuse/core';
import { onScopeDispose, ref, watch } from 'vue';

/** Marks what the tour speaks of; `look/sight.css` draws around it. */
const MARK = 'data-pointed';

/**
 * Points at the first of these sights that is on the page, also when the page draws it later or anew.
 * @param sights selectors, the best first; null while nothing is pointed at
 * @returns whether it is in sight
 */
export function useSight(sights: () => readonly string[] | null) {
  const found = ref(false);
  let marked: Element | null = null;
  /** The sight that the page was moved to: one drawn anew is left where the person has it. */
  let shown = '';

  function markSights(): void {
    const all = sights() ?? [];
    const sight = all.find((one) => document.querySelector(one)) ?? '';
    const now = sight ? document.querySelector(sight) : null;
    if (now === marked) return;
    marked?.removeAttribute(MARK);
    now?.setAttribute(MARK, '');
    if (now && sight !== shown) show(now);
    shown = sight;
    marked = now;
    found.value = now !== null;
  }
  useMutationObserver(document.body, markSights, { childList: true, subtree: true });
  watch(sights, markSights, { flush: 'post', immediate: true });
  onScopeDispose(() => marked?.removeAttribute(MARK));
  return found;
}

/** Moves the page no more than it must; of what is taller than the window the head is shown. */
function show(sight: Element): void {
  const tall = sight.getBoundingClientRect().height > innerHeight;
  sight.scrollIntoView({ block: tall ? 'start' : 'nearest' });
}
