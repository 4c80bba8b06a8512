import { computed, ref, watch, type Ref } from 'vue';
import { useScale } from './useScale.ts';

/**
 * A number entry with the scale beside it. A weight comes into it only when a person takes it; what is typed by hand
 * stays. `source` says whether the text stands there as the scale showed it.
 */
export function useScaleEntry(typed: Ref<string>) {
  const scale = useScale();
  const taken = ref<string | null>(null);
  watch(
    typed,
    (now) => {
      if (now !== taken.value) taken.value = null;
    },
    { flush: 'sync' },
  );
  const source = computed(() => (taken.value === null ? ('typed' as const) : ('scale' as const)));
  const free = computed(() => typed.value === '' || source.value === 'scale');

  /** Takes the weight at rest; false where there is none, or where something was typed. */
  function take(): boolean {
    if (scale.offered === null || !free.value) return false;
    taken.value = scale.offered;
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
