import { useTimeoutFn } from '@vueuse/core';
import { defineStore } from 'pinia';
import { shallowRef } from 'vue';
import { onOtherOpening } from '../link/opening.ts';

/** How long an undo is offered. */
const SHOWN_MS = 10_000;

interface Toast {
  id: number;
  text: string;
  undo?: () => void;
}

/** The last action, shown by the frame. Only the newest: a stack would cover the page. */
export const useToasts = defineStore('toasts', () => {
  const shown = shallowRef<Toast | null>(null);
  let last = 0;
  const timer = useTimeoutFn(dismiss, SHOWN_MS, { immediate: false });

  function show(text: string, undo?: () => void): void {
    shown.value = { id: ++last, text, undo };
    timer.start();
  }

  /** Removes the toast early. */
  function dismiss(): void {
    shown.value = null;
  }

  /** Undoes the newest action if possible; false otherwise. */
  function undoLast(): boolean {
    const undo = shown.value?.undo;
    if (!undo) return false;
    dismiss();
    undo();
    return true;
  }

  // An undo would affect the book that is open now.
  onOtherOpening(dismiss);
  return { shown, show, dismiss, undoLast };
});

/**
 * Reports an action for ten seconds, with an undo button if `undo` is given.
 * @example toast('Saved 18.62 lb trim', () => void undo(weighingId));
 */
export function toast(text: string, undo?: () => void): void {
  useToasts().show(text, undo);
}
