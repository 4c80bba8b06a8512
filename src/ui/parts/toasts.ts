import { useTimeoutFn } from '@vueuse/core';
import { defineStore } from 'pinia';
import { shallowRef } from 'vue';
import { onOtherOpening } from '../link/opening.ts';

/** How long a thing just done may be undone with one press. */
const SHOWN_MS = 10_000;

export interface Toast {
  id: number;
  text: string;
  undo?: () => void;
}

/** What was done last, shown by the frame. Only the newest: a pile would cover what it tells of. */
export const useToasts = defineStore('toasts', () => {
  const shown = shallowRef<Toast | null>(null);
  let last = 0;
  const timer = useTimeoutFn(dismiss, SHOWN_MS, { immediate: false });

  function show(text: string, undo?: () => void): void {
    shown.value = { id: ++last, text, undo };
    timer.start();
  }

  /** Takes the toast away before its time. */
  function dismiss(): void {
    shown.value = null;
  }

  /** Undoes the newest thing if it can be undone; false otherwise. */
  function undoLast(): boolean {
    const undo = shown.value?.undo;
    if (!undo) return false;
    dismiss();
    undo();
    return true;
  }

  // Undone would be something in the book that is open now.
  onOtherOpening(dismiss);
  return { shown, show, dismiss, undoLast };
});

/**
 * Says that something was done, for ten seconds, with a way back if `undo` is given.
 * @example toast('Kept 18.62 lb trim', () => void undo(weighingId));
 */
export function toast(text: string, undo?: () => void): void {
  useToasts().show(text, undo);
}
