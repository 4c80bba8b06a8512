import { computed, ref, type Ref, type ShallowRef } from 'vue';

const STEPS: Readonly<Record<string, number>> = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 };

/**
 * Keyboard control of a group with a single tab stop: arrows move in the given order, Enter and Space pick. Letters
 * and numbers belong to the page.
 */
export function useMapKeys(
  codes: () => readonly string[],
  picked: Ref<string>,
  group: Readonly<ShallowRef<HTMLElement | null>>,
  pick: (code: string) => void,
) {
  const last = ref('');
  /** The tab stop. */
  const stop = computed(
    () => [last.value, picked.value].find((code) => codes().includes(code)) ?? codes()[0] ?? '',
  );
  /** The one with the keyboard focus; '' when a mouse set the focus. */
  const ring = ref('');

  function focusOn(code: string): void {
    last.value = code;
    const found = [...(group.value?.querySelectorAll<HTMLElement | SVGElement>('[data-primal]') ?? [])];
    found.find((one) => one.dataset['primal'] === code)?.focus();
  }

  function onKey(event: KeyboardEvent, code: string): void {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const step = STEPS[event.key];
    if (step !== undefined) {
      const next = codes().at((codes().indexOf(code) + step) % codes().length);
      if (next !== undefined) focusOn(next);
    } else if (event.key === 'Enter' || event.key === ' ') pick(code);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  function onFocus(event: FocusEvent, code: string): void {
    last.value = code;
    ring.value = event.target instanceof Element && event.target.matches(':focus-visible') ? code : '';
  }

  return { stop, ring, onKey, onFocus, focus: () => focusOn(stop.value) };
}
