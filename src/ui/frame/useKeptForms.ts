import { useEventListener, useMutationObserver, useTimeoutFn } from '@vueuse/core';
import { useDrafts, type FormDraft } from '../stores/drafts.ts';
import { fieldsOf, fill, formOf, formsNow, valueOf, valuesOf } from './form-fields.ts';

/** Pages and dialogs fill in what they know as answers come in: a form is tried again after each change for so long. */
const TRIES_MS = [0, 150, 600, 1500];

/**
 * Half-typed forms survive loading the window anew, on every page and in every dialog. What stands in them is read off the
 * page when it goes, and typed in again when a form of the same place and title stands there as it did before anything was
 * typed. A form that was saved, left or emptied has nothing to keep.
 */
export function useKeptForms(): void {
  const drafts = useDrafts();
  /** Forms as they were before the first key of the person at work. */
  const before = new Map<Element, Record<string, string>>();
  const touched = new Set<Element>();
  /** Forms that are being filled in again, with what has no field yet. */
  const open = new Map<Element, Record<string, string>>();
  let filling = false;

  function look({ target }: Event): void {
    const form = target instanceof Element ? formOf(target) : null;
    if (form && !touched.has(form)) before.set(form, valuesOf(form));
  }
  function touch({ target }: Event): void {
    const form = target instanceof Element && !filling ? formOf(target) : null;
    if (!form) return;
    touched.add(form);
    // Somebody began anew: what was typed before does not come on top of it.
    if (!open.has(form)) for (const [key, one] of formsNow()) if (one === form) drafts.forms.delete(key);
  }

  function typedNow(): Map<string, FormDraft> {
    const typed = new Map<string, FormDraft>();
    for (const [key, form] of formsNow()) {
      const was = touched.has(form) && before.get(form);
      if (!was) continue;
      const changed = [...fieldsOf(form)]
        .map(([name, field]) => [name, valueOf(field)] as const)
        .filter(([name, value]) => value !== (was[name] ?? ''));
      if (changed.length > 0) typed.set(key, { before: was, typed: Object.fromEntries(changed) });
    }
    return typed;
  }

  function fillIn(): void {
    for (const [key, form] of formsNow()) {
      const draft = open.has(form) ? null : drafts.forms.get(key);
      if (draft && !touched.has(form) && standsAs(form, draft.before)) {
        drafts.forms.delete(key);
        before.set(form, draft.before);
        touched.add(form);
        open.set(form, { ...draft.typed });
      }
      const typed = open.get(form);
      if (typed) type(form, typed);
    }
  }
  /** Fills the fields that are there; others may come up with their values. */
  function type(form: Element, typed: Record<string, string>): void {
    filling = true;
    const fields = fieldsOf(form);
    for (const [name, value] of Object.entries(typed)) {
      const field = fields.get(name);
      if (!field) continue;
      fill(field, value);
      delete typed[name];
    }
    filling = false;
  }

  const tries = TRIES_MS.map((ms) => useTimeoutFn(fillIn, ms, { immediate: false }));
  useMutationObserver(
    document.body,
    () => {
      for (const form of [...touched, ...before.keys()])
        if (!form.isConnected) for (const kept of [touched, before, open]) kept.delete(form);
      if (drafts.forms.size > 0 || open.size > 0) for (const { start } of tries) start();
    },
    { childList: true, subtree: true },
  );
  for (const event of ['focusin', 'pointerdown', 'keydown'] as const)
    useEventListener(document, event, look, { capture: true });
  for (const event of ['input', 'change'] as const)
    useEventListener(document, event, touch, { capture: true });
  useEventListener(window, 'pagehide', () => drafts.store(typedNow()));
}

function standsAs(form: Element, before: Record<string, string>): boolean {
  const now = valuesOf(form);
  return Object.entries(before).every(([name, value]) => now[name] === value);
}
