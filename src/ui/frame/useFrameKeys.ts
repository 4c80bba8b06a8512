import { useEventListener } from '@vueuse/core';
import { useRoute, useRouter } from 'vue-router';
import { handbookOf } from '../handbook/handbook-of.ts';
import { useToasts } from '../parts/toasts.ts';
import { places } from './places.ts';
import { isFullTicket, isSlip } from '../calls/quick-ticket.ts';
import { makeScan, READER_MS } from './scan.ts';

interface FrameKeys {
  find: () => void;
  help: () => void;
  /** A number typed or scanned outside any field. */
  scanned: (text: string) => void;
}

/** Global keys: pages, find, help, the handbook, undo, a ticket from a barcode reader. */
export function useFrameKeys({ find, help, scanned }: FrameKeys): void {
  const router = useRouter();
  const route = useRoute();
  const toasts = useToasts();
  const scan = makeScan();
  const reader = makeScan(READER_MS);
  /** The field before the scan, which may have replaced a selected weight. */
  let before: { field: EventTarget | null; value: string } = { field: null, value: '' };

  function onKey(event: KeyboardEvent): void {
    // The tenth has 0.
    const digit = event.altKey ? /^Digit([0-9])$/.exec(event.code)?.[1] : undefined;
    const place = digit === undefined ? undefined : places[(Number(digit) + 9) % 10];
    if (place) {
      event.preventDefault();
      void router.push(`/${place}`);
      return;
    }
    if (event.key === 'F1') {
      event.preventDefault();
      void router.push(handbookOf(route));
      return;
    }
    const command = event.ctrlKey || event.metaKey;
    if (command && event.key.toLowerCase() === 'k') {
      event.preventDefault();
      find();
      return;
    }
    if (command && event.key === 'z' && !hasText(event.target)) {
      if (toasts.undoLast()) event.preventDefault();
      return;
    }
    if (command || event.altKey) return;
    // With a group of options focused, digits select options, so a number counts only at a barcode reader's speed.
    if (isTyping(event.target) || isRadio(event.target)) return readIntoField(event);
    if (event.key === '/') {
      event.preventDefault();
      find();
    } else if (event.key === '?') help();
    else {
      const text = scan.press(event.key, event.timeStamp);
      if (text === null) return;
      event.preventDefault();
      scanned(text);
    }
  }
  /** Handles a barcode scanned into a field: restores the field's value and opens the animal. */
  function readIntoField(event: KeyboardEvent): void {
    if (!reader.goesOn(event.timeStamp)) before = { field: event.target, value: valueOf(event.target) };
    const text = reader.press(event.key, event.timeStamp);
    if (text === null || !(isFullTicket(text) || isSlip(text))) return;
    event.preventDefault();
    event.stopPropagation();
    if (before.field === event.target) restoreValue(event.target, before.value);
    scanned(text);
  }
  // Capturing, so that a number scanned while a group of options has the focus is still collected completely.
  useEventListener('keydown', onKey, true);
}

/** True where keys enter text: single-key shortcuts must not intercept them. */
function isTyping(target: EventTarget | null): boolean {
  if (target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement) return true;
  return target instanceof HTMLInputElement && !['radio', 'checkbox', 'button'].includes(target.type);
}

function isRadio(target: EventTarget | null): boolean {
  return target instanceof HTMLInputElement && target.type === 'radio';
}

function valueOf(target: EventTarget | null): string {
  return target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement ? target.value : '';
}

function restoreValue(target: EventTarget | null, value: string): void {
  if (!isTyping(target)) return;
  if (!(target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement)) return;
  target.value = value;
  target.dispatchEvent(new Event('input', { bubbles: true }));
}

function hasText(target: EventTarget | null): boolean {
  return isTyping(target) && (target as HTMLInputElement).value !== '';
}
