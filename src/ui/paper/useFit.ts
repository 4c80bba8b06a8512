import { onMounted, watch, type Ref } from 'vue';

/** Type may grow to this and shrink to that part of its usual size, which leaves 1/16 in for the body of a label. */
const MAX_SCALE = 1.35;
const MIN_SCALE = 0.52;
const TRIES = 7;

/**
 * Sets `--fit` on an element to the largest factor at which nothing in it is cut off, so that long names are written
 * smaller and short ones larger. Halving the interval finds it to a hundredth.
 * @param box the element whose type sizes are multiplied by `var(--fit)`
 * @param content changes when what stands in it does
 * @param onResult hears after every fitting whether all is in, false when even the smallest type is cut off
 */
export function useFit(
  box: Ref<HTMLElement | null>,
  content: () => unknown,
  onResult: (fits: boolean) => void,
): void {
  function holds(element: HTMLElement, factor: number): boolean {
    element.style.setProperty('--fit', String(factor));
    const last = element.lastElementChild?.getBoundingClientRect();
    // Down to the hair, by fractions; across, Chromium's whole pixels may round one up and the other down.
    return (
      (last?.bottom ?? 0) <= element.getBoundingClientRect().bottom &&
      element.scrollWidth <= element.clientWidth + 1
    );
  }

  function fit(): void {
    const element = box.value;
    if (!element) return;
    let low = MIN_SCALE;
    let high = MAX_SCALE;
    const fits = holds(element, low);
    for (let i = 0; i < TRIES; i++) {
      const middle = (low + high) / 2;
      if (holds(element, middle)) low = middle;
      else high = middle;
    }
    holds(element, low);
    onResult(fits);
  }

  onMounted(async () => {
    fit();
    await document.fonts.ready;
    fit();
  });
  watch(content, fit, { flush: 'post' });
}
