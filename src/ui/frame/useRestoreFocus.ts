import { useEventListener, useMutationObserver, useTimeoutFn } from '@vueuse/core';

/** Delay before the fallback below, so that whoever closed a dialog or navigated can set the focus first. */
const AFTER_OTHERS_MS = 60;

/**
 * The focus is never lost: when the focused element is removed, the focus moves to its card, or to the heading of
 * the page, so that the next Tab continues from there.
 */
export function useRestoreFocus(): void {
  let around: Element[] = [];

  const remember = ({ target }: FocusEvent): void => {
    around = [];
    for (let one = target as Element | null; one && one !== document.body; one = one.parentElement)
      around.push(one);
  };
  function restoreFocus(): void {
    if (document.activeElement !== document.body) return;
    const card = around.find((one) => one.isConnected && one.matches('main section, main form'));
    const next = card ?? document.querySelector('main h1');
    if (!(next instanceof HTMLElement)) return;
    next.tabIndex = -1;
    next.focus({ preventScroll: true });
  }
  const { isPending, start } = useTimeoutFn(restoreFocus, AFTER_OTHERS_MS, { immediate: false });
  const refocus = (): void => {
    if (around.length > 0 && !around[0]?.isConnected && !isPending.value) start();
  };

  useEventListener(document, 'focusin', remember);
  useMutationObserver(document.body, refocus, { childList: true, subtree: true });
}
