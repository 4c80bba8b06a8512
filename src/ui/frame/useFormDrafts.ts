import { useEventListener, useMutationObserver, useTimeoutFn } from '@vueuse/core';
import { useDrafts, type FormDraft } from '../stores/drafts.ts';
import { areListsTyped, fieldsOf, fill, formOf, formsNow, valueOf, valuesOf } from './form-fields.ts';

/** Pages and dialogs fill fields as answers arrive, so restoring is retried this long after each change. */
const TRIES_MS = [0, 150, 600, 1500];
/** After this many writes a value that the form keeps resetting is dropped. */
const MAX_FILLS = 4;

interface PendingValue {
  value: string;
  /** How often it was written into its field; 1 if the value was already there. */
  fills: number;
}

/**
 * Restores half-typed forms after a reload, on every page and in every dialog. Values are read from the page when it
 * unloads, and typed in again once a form with the same route and title has the same initial values; fields with
 * autosave may differ. Forms that were saved, left or emptied are not restored, and neither are forms with a selected
 * person, so that text cannot end up in another person's record.
 */
export function useFormDrafts(): void {
  const drafts = useDrafts();
  /** Initial values of each form, taken before the first key press. */
  const before = new Map<Element, Record<string, string>>();
  const touched = new Set<Element>();
  /** Forms being restored, with the values that have no field yet or may not last. */
  const open = new Map<Element, Map<string, PendingValue>>();
  let filling = false;

  function look({ target }: Event): void {
    const form = target instanceof Element ? formOf(target) : null;
    if (form && !touched.has(form)) before.set(form, valuesOf(form));
  }
  /** The person is typing in the form, so values that were already in its fields are not written again. */
  function yieldTo({ target }: Event): void {
    const form = target instanceof Element && !filling ? formOf(target) : null;
    const pending = form && open.get(form);
    if (pending) for (const [name, { fills }] of pending) if (fills > 0) pending.delete(name);
  }
  function touch(event: Event): void {
    const { target } = event;
    const form = target instanceof Element && !filling ? formOf(target) : null;
    if (!form) return;
    touched.add(form);
    yieldTo(event);
    // The person started over, so earlier values must not be added.
    if (!open.has(form)) for (const [key, one] of formsNow()) if (one === form) drafts.forms.delete(key);
  }

  function typedNow(): Map<string, FormDraft> {
    const typed = new Map<string, FormDraft>();
    for (const [key, form] of formsNow()) {
      const was = touched.has(form) && before.get(form);
      if (!was || !areListsTyped(form, was)) continue;
      const left = [...(open.get(form) ?? [])].map(([name, { value }]) => [name, value] as const);
      const changed = [...fieldsOf(form)]
        .map(([name, field]) => [name, valueOf(field)] as const)
        .filter(([name, value]) => value !== (was[name] ?? ''));
      const all = Object.fromEntries([...left, ...changed]);
      if (Object.keys(all).length > 0) typed.set(key, { before: was, typed: all });
    }
    return typed;
  }

  function fillIn(): void {
    for (const [key, form] of formsNow()) {
      const draft = open.has(form) ? null : drafts.forms.get(key);
      if (draft && !touched.has(form) && standsAs(form, draft)) {
        drafts.forms.delete(key);
        before.set(form, draft.before);
        touched.add(form);
        const pending = Object.entries(draft.typed).map(
          ([name, value]) => [name, { value, fills: 0 }] as const,
        );
        open.set(form, new Map(pending));
      }
      const pending = open.get(form);
      if (pending) type(form, pending);
    }
  }
  /**
   * Fills the fields that exist; more may appear with their values. One field may reset another, so values are
   * retried until nothing is left to fill.
   */
  function type(form: Element, pending: Map<string, PendingValue>): void {
    filling = true;
    const fields = fieldsOf(form);
    const done: string[] = [];
    let filled = false;
    for (const [name, one] of pending) {
      const field = fields.get(name);
      if (!field) continue;
      if (valueOf(field) === one.value || one.fills >= MAX_FILLS) {
        one.fills ||= 1;
        done.push(name);
      } else if (fill(field, one.value)) {
        one.fills++;
        filled = true;
      }
    }
    if (!filled) for (const name of done) pending.delete(name);
    filling = false;
  }

  const tries = TRIES_MS.map((ms) => useTimeoutFn(fillIn, ms, { immediate: false }));
  useMutationObserver(
    document.body,
    () => {
      for (const form of [...touched, ...before.keys()])
        if (!form.isConnected) for (const forms of [touched, before, open]) forms.delete(form);
      if (drafts.forms.size > 0 || open.size > 0) for (const { start } of tries) start();
    },
    { childList: true, subtree: true },
  );
  for (const event of ['focusin', 'pointerdown', 'keydown'] as const)
    useEventListener(document, event, look, { capture: true });
  for (const event of ['pointerdown', 'keydown'] as const)
    useEventListener(document, event, yieldTo, { capture: true });
  for (const event of ['input', 'change'] as const)
    useEventListener(document, event, touch, { capture: true });
  // Between these two events the browser aborts open requests, and a page that reports that shows no form any more.
  let leaving = new Map<string, FormDraft>();
  useEventListener(window, 'beforeunload', () => void (leaving = typedNow()));
  useEventListener(window, 'pagehide', () => drafts.store(new Map([...leaving, ...typedNow()])));
}

/** Whether a form has its initial values, except for autosaved fields. */
function standsAs(form: Element, { before, typed }: FormDraft): boolean {
  const now = valuesOf(form);
  return Object.entries(before).every(([name, value]) => now[name] === value || now[name] === typed[name]);
}
