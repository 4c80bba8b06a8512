import { onMounted, ref, watch, type Ref } from 'vue';

/** Type may grow to this and shrink to that part of its usual size: below, nobody reads it at arm's length. */
const MOST = 1.35;
const LEAST = 0.5;
const TRIES = 7;

/**
 * Sets `--fit` on an element to the largest factor at which nothing in it is cut off, so that long names are written
 * smaller and short ones larger. Halving the interval finds it to a hundredth.
 * @param box the element whose type sizes are multiplied by `var(--fit)`
 * @param content changes when what stands in it does
 * @returns `fits`, false when even the smallest is cut off
 */
export function useFit(box: Ref<HTMLElement | null>, content: () => unknown): { fits: Ref<boolean> } {
  const fits = ref(true);

  function holds(element: HTMLElement, factor: number): boolean {
    element.style.setProperty('--fit', String(factor));
    // Half a pixel of rounding is no overflow; Chromium rounds scroll sizes to whole ones.
    return element.scrollHeight <= element.clientHeight + 1 && element.scrollWidth <= element.clientWidth + 1;
  }

  function fit(): void {
    const element = box.value;
    if (!element) return;
    let low = LEAST;
    let high = MOST;
    fits.value = holds(element, low);
    for (let i = 0; i < TRIES; i++) {
      const middle = (low + high) / 2;
      if (holds(element, middle)) low = middle;
      else high = middle;
    }
    holds(element, low);
  }

  onMounted(async () => {
    fit();
    await document.fonts.ready;
    fit();
  });
  watch(content, fit, { flush: 'post' });
  return { fits };
}
