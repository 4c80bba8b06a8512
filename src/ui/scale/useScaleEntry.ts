import { computed, ref, watch, type Ref } from 'vue';
import { useScale } from './useScale.ts';

/** A text as the scale gave it, and which scale that was. */
export interface Taken {
  text: string;
  source: 'scale' | 'practice';
}

/**
 * A number entry with the scale beside it. A weight comes into it only when a person takes it; what is typed by hand
 * stays. `source` says whether the text stands there as a scale showed it, and whether that one was for practice.
 * `taken` is given where it is to outlive the entry.
 */
export function useScaleEntry(typed: Ref<string>, taken: Ref<Taken | null> = ref(null)) {
  const scale = useScale();
  watch(
    typed,
    (now) => {
      if (now !== taken.value?.text) taken.value = null;
    },
    { flush: 'sync' },
  );
  const source = computed(() => taken.value?.source ?? ('typed' as const));
  const free = computed(() => typed.value === '' || taken.value !== null);

  /** Takes the weight at rest; false where there is none, or where something was typed. */
  function take(): boolean {
    if (scale.offered === null || !free.value) return false;
    taken.value = { text: scale.offered, source: scale.practice === null ? 'scale' : 'practice' };
    typed.value = scale.offered;
    return true;
  }

  /** Space at an empty entry, or F2, takes the weight. True: the key was for the scale. */
  function onKey(event: KeyboardEvent): boolean {
    if (scale.shown.state === 'none' || event.ctrlKey || event.altKey || event.metaKey) return false;
    const forScale = event.key === 'F2' || (event.key === ' ' && free.value);
    if (!forScale) return false;
    event.preventDefault();
    take();
    return true;
  }

  return { source, free, take, onKey };
}

export type ScaleEntry = ReturnType<typeof useScaleEntry>;
