import { computed, ref } from 'vue';

/** Shorter waits are not worth telling: a sign that flickers reads as trouble. */
export const SLOW_AFTER_MS = 320;

const slow = ref(0);

/** True while the desk takes longer over something than a person takes for granted. */
export const waiting = computed(() => slow.value > 0);

/** Watches over one answer of the desk, and hands it on. */
export async function tellWhenSlow<T>(answer: Promise<T>): Promise<T> {
  let told = false;
  const timer = setTimeout(() => {
    told = true;
    slow.value += 1;
  }, SLOW_AFTER_MS);
  try {
    return await answer;
  } finally {
    clearTimeout(timer);
    if (told) slow.value -= 1;
  }
}
