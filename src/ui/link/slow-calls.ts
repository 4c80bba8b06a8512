import { defineStore } from 'pinia';
import { computed, ref } from 'vue';

/** Shorter waits are not worth telling: a sign that flickers reads as trouble. */
export const SLOW_AFTER_MS = 320;

/** The calls that the desk takes long over. */
export const useSlowCalls = defineStore('waiting', () => {
  const slowCalls = ref(0);
  /** True while the desk takes longer over something than a person takes for granted. */
  const isSlow = computed(() => slowCalls.value > 0);
  return { slowCalls, isSlow };
});

/** Watches over one answer of the desk, and hands it on. */
export async function trackSlow<T>(answer: Promise<T>): Promise<T> {
  const waiting = useSlowCalls();
  let isCounted = false;
  const timer = setTimeout(() => {
    isCounted = true;
    waiting.slowCalls += 1;
  }, SLOW_AFTER_MS);
  try {
    return await answer;
  } finally {
    clearTimeout(timer);
    if (isCounted) waiting.slowCalls -= 1;
  }
}
