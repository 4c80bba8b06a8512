import { useIntervalFn } from '@vueuse/core';
import { computed, ref, watch } from 'vue';

/**
 * Counts down from what was left when it was told, by this computer's clock alone.
 * @param left milliseconds; null while nothing counts
 * @param over called once when nothing is left
 * @returns `left`: `4:59`
 */
export function useCountdown(left: () => { id: string; ms: number } | null, over: () => void) {
  const end = ref(0);
  const now = ref(0);
  const tick = useIntervalFn(
    () => {
      now.value = performance.now();
      if (now.value < end.value) return;
      tick.pause();
      over();
    },
    1000,
    { immediate: false },
  );
  watch(
    () => left()?.id,
    () => {
      const { ms } = left() ?? { ms: 0 };
      now.value = performance.now();
      end.value = now.value + ms;
      if (ms > 0) tick.resume();
      else tick.pause();
    },
    { immediate: true },
  );
  return computed(() => {
    const seconds = Math.max(0, Math.ceil((end.value - now.value) / 1000));
    return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
  });
}
