import { useEventListener, useMutationObserver, useTimeoutFn } from '@vueuse/core';

/** Whoever closed a sheet or led on puts the focus where it belongs; only if nobody did, it is put somewhere here. */
const AFTER_OTHERS_MS = 60;

/**
 * The focus is never lost: when what had it is gone (a row put away, a note that said something, another page), the card
 * that it stood in gets it, or the heading of the page, so that the next Tab goes on from there.
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
