import { useMutationObserver } from '@vueuse/core';
import { onScopeDispose, shallowRef, watch } from 'vue';

/** Marks the element that the tour describes; `look/sight.css` outlines it. */
const MARK = 'data-pointed';

/**
 * Highlights the first of these elements that is on the page, also when it appears later or is redrawn.
 * @param sights selectors, the best first; null while nothing is highlighted
 * @returns the highlighted element; null while none of them is on the page
 */
export function useHighlight(sights: () => readonly string[] | null) {
  const marked = shallowRef<HTMLElement | null>(null);
  /** The element that was scrolled into view: a redrawn one is not scrolled to again. */
  let shown = '';

  function markSights(): void {
    const all = sights() ?? [];
    const sight = all.find((one) => document.querySelector(one)) ?? '';
    const now = sight ? document.querySelector<HTMLElement>(sight) : null;
    if (now === marked.value) return;
    marked.value?.removeAttribute(MARK);
    now?.setAttribute(MARK, '');
    if (now && sight !== shown) show(now);
    shown = sight;
    marked.value = now;
  }
  useMutationObserver(document.body, markSights, { childList: true, subtree: true });
  watch(sights, markSights, { flush: 'post', immediate: true });
  onScopeDispose(() => marked.value?.removeAttribute(MARK));
  return marked;
}

/** Scrolls as little as possible; of an element taller than the window the top is shown. */
function show(sight: Element): void {
  const tall = sight.getBoundingClientRect().height > innerHeight;
  sight.scrollIntoView({ block: tall ? 'start' : 'nearest' });
}
