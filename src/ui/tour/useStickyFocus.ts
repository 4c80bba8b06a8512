import { useEventListener } from '@vueuse/core';

/** How long a new page may move the focus to its first field, in milliseconds. */
const HOLD_MS = 1000;

/**
 * Focuses an element and refocuses it if a new page takes the focus. Any key or pointer press by the person ends
 * that immediately.
 */
export function useStickyFocus(element: () => HTMLElement | undefined): () => void {
  let until = 0;
  const focus = (): void => element()?.focus({ preventScroll: true });

  function onFocus({ target, timeStamp }: FocusEvent): void {
    if (timeStamp < until && target !== element()) queueMicrotask(focus);
  }
  const letGo = (): void => void (until = 0);

  useEventListener('focusin', onFocus);
  useEventListener(['keydown', 'pointerdown'], letGo, true);
  return () => {
    until = performance.now() + HOLD_MS;
    focus();
  };
}
