import { onMounted, onUnmounted } from 'vue';

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

  onMounted(() => {
    window.addEventListener('focusin', onFocus);
    window.addEventListener('keydown', letGo, true);
    window.addEventListener('pointerdown', letGo, true);
  });
  onUnmounted(() => {
    window.removeEventListener('focusin', onFocus);
    window.removeEventListener('keydown', letGo, true);
    window.removeEventListener('pointerdown', letGo, true);
  });
  return () => {
    until = performance.now() + HOLD_MS;
    focus();
  };
}
