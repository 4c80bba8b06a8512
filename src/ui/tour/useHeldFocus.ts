import { useEventListener } from '@vueuse/core';

/** So long after a page is drawn may it still put the focus into its first field, in milliseconds. */
const HOLD_MS = 1000;

/**
 * Gives the focus to an element and gives it back there if a page that was just drawn takes it away. A key or a press of
 * whoever sits there ends that at once: what they choose is theirs.
 */
export function useHeldFocus(element: () => HTMLElement | undefined): () => void {
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
