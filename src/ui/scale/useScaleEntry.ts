import { computed, ref, watch, type Ref } from 'vue';
import { useScale } from './useScale.ts';

/** A text from the scale, and which scale it was. */
export interface Taken {
  text: string;
  source: 'scale' | 'practice';
}

/**
 * A number entry with the scale beside it. A scale weight enters only when a person takes it; typed text stays.
 * `source` says whether the text came from a scale, and whether that was the practice scale. Pass `taken` to keep
 * it beyond the entry's lifetime.
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

  /** Takes the stable weight; false without one, or if something was typed. */
  function take(): boolean {
    if (scale.offered === null || !free.value) return false;
    taken.value = { text: scale.offered, source: scale.practice === null ? 'scale' : 'practice' };
    typed.value = scale.offered;
    return true;
  }

  /** Space in an empty entry, or F2, takes the weight. True: the key was for the scale. */
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
