import { defineStore } from 'pinia';
import { computed, ref } from 'vue';

/** Shorter waits show no indicator, because flicker looks like an error. */
export const SLOW_AFTER_MS = 320;

/** The number of slow calls. */
export const useSlowCalls = defineStore('waiting', () => {
  const slowCalls = ref(0);
  /** True while the desk takes noticeably long. */
  const isSlow = computed(() => slowCalls.value > 0);
  return { slowCalls, isSlow };
});

/** Counts a call as slow while its answer is overdue, and returns the answer. */
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
