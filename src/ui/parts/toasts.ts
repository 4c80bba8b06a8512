import { readonly, shallowRef } from 'vue';
import { onOtherOpening } from '../opening.ts';

/** How long a thing just done may be undone with one press. */
const SHOWN_MS = 10_000;

export interface Toast {
  id: number;
  text: string;
  undo?: () => void;
}

const shown = shallowRef<readonly Toast[]>([]);
let last = 0;
// Undone would be something in the book that is open now.
onOtherOpening(() => (shown.value = []));

/** What is on screen now, drawn once, by the frame. Only the newest: a pile would cover what it tells of. */
export const toasts = readonly(shown);

/**
 * Says that something was done, for ten seconds, with a way back if `undo` is given.
 * @example toast('Kept 18.62 lb trim', () => void undo(weighingId));
 */
export function toast(text: string, undo?: () => void): void {
  const id = ++last;
  shown.value = [{ id, text, undo }];
  setTimeout(() => dismiss(id), SHOWN_MS);
}

/** Takes a toast away before its time. */
export function dismiss(id: number): void {
  shown.value = shown.value.filter((one) => one.id !== id);
}

/** Undoes the newest thing that can be undone; false if there is none. */
export function undoLast(): boolean {
  const newest = shown.value.findLast((one) => one.undo);
  if (!newest?.undo) return false;
  newest.undo();
  dismiss(newest.id);
  return true;
}
