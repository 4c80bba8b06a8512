import { useEventListener, useMutationObserver, useTimeoutFn } from '@vueuse/core';
import { useDrafts, type FormDraft } from '../stores/drafts.ts';
import { areListsTyped, fieldsOf, fill, formOf, formsNow, valueOf, valuesOf } from './form-fields.ts';

/** Pages and dialogs fill in what they know as answers come in: a form is tried again after each change for so long. */
const TRIES_MS = [0, 150, 600, 1500];
/** What a form puts otherwise so often is not typed into it again. */
const MAX_FILLS = 4;

interface Kept {
  value: string;
  /** How often it was put into its field; 1 where it stood there already. */
  fills: number;
}

/**
 * Half-typed forms survive loading the window anew, on every page and in every dialog. What stands in them is read off the
 * page when it goes, and typed in again when a form of the same place and title stands there as it did before anything was
 * typed; fields that were saved by themselves may stand as they were typed. A form that was saved, left or emptied has
 * nothing to keep, and of one in which somebody was picked from a list nothing is typed into somebody else's record.
 */
export function useKeptForms(): void {
  const drafts = useDrafts();
  /** Forms as they were before the first key of the person at work. */
  const before = new Map<Element, Record<string, string>>();
  const touched = new Set<Element>();
  /** Forms that are being filled in again, with what has no field yet or does not stand in it for sure. */
  const open = new Map<Element, Map<string, Kept>>();
  let filling = false;

  function look({ target }: Event): void {
    const form = target instanceof Element ? formOf(target) : null;
    if (form && !touched.has(form)) before.set(form, valuesOf(form));
  }
  /** Somebody is at work in the form: what stood in its fields already is not put there again. */
  function yieldTo({ target }: Event): void {
    const form = target instanceof Element && !filling ? formOf(target) : null;
    const kept = form && open.get(form);
    if (kept) for (const [name, { fills }] of kept) if (fills > 0) kept.delete(name);
  }
  function touch(event: Event): void {
    const { target } = event;
    const form = target instanceof Element && !filling ? formOf(target) : null;
    if (!form) return;
    touched.add(form);
    yieldTo(event);
    // Somebody began anew: what was typed before does not come on top of it.
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
        const kept = Object.entries(draft.typed).map(([name, value]) => [name, { value, fills: 0 }] as const);
        open.set(form, new Map(kept));
      }
      const kept = open.get(form);
      if (kept) type(form, kept);
    }
  }
  /**
   * Fills the fields that are there; others may come up with their values. One field may reset another: what stands is
   * kept until a try finds nothing to fill.
   */
  function type(form: Element, kept: Map<string, Kept>): void {
    filling = true;
    const fields = fieldsOf(form);
    const done: string[] = [];
    let filled = false;
    for (const [name, one] of kept) {
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
    if (!filled) for (const name of done) kept.delete(name);
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
  for (const event of ['pointerdown', 'keydown'] as const)
    useEventListener(document, event, yieldTo, { capture: true });
  for (const event of ['input', 'change'] as const)
    useEventListener(document, event, touch, { capture: true });
  useEventListener(window, 'pagehide', () => drafts.store(typedNow()));
}

/** Whether a form stands as before anything was typed, but for fields that were saved as they were typed. */
function standsAs(form: Element, { before, typed }: FormDraft): boolean {
  const now = valuesOf(form);
  return Object.entries(before).every(([name, value]) => now[name] === value || now[name] === typed[name]);
}
