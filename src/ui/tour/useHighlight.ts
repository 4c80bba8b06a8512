import { useMutationObserver } from '@vueuse/core';
import { onScopeDispose, ref, watch } from 'vue';

/** Marks the element that the tour describes; `look/sight.css` outlines it. */
const MARK = 'data-pointed';

/**
 * Highlights the first of these elements that is on the page, also when it appears later or is redrawn.
 * @param sights selectors, the best first; null while nothing is highlighted
 * @returns whether it is on the page
 */
export function useHighlight(sights: () => readonly string[] | null) {
  const found = ref(false);
  let marked: Element | null = null;
  /** The element that was scrolled into view: a redrawn one is not scrolled to again. */
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

/** Scrolls as little as possible; of an element taller than the window the top is shown. */
function show(sight: Element): void {
  const tall = sight.getBoundingClientRect().height > innerHeight;
  sight.scrollIntoView({ block: tall ? 'start' : 'nearest' });
}
