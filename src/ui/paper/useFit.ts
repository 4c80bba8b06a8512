import { onMounted, watch, type Ref } from 'vue';

/** Limits of the type's scale; the lower one leaves 1/16 in for the body of a label. */
const MAX_SCALE = 1.35;
const MIN_SCALE = 0.52;
const TRIES = 7;

/**
 * Sets `--fit` on an element to the largest factor at which nothing is cut off, to a hundredth, by bisection.
 * @param box the element whose font sizes are multiplied by `var(--fit)`
 * @param content changes with the element's content
 * @param onResult called after every fitting with whether everything fits; false if even the smallest type is cut off
 */
export function useFit(
  box: Ref<HTMLElement | null>,
  content: () => unknown,
  onResult: (fits: boolean) => void,
): void {
  function holds(element: HTMLElement, factor: number): boolean {
    element.style.setProperty('--fit', String(factor));
    const last = element.lastElementChild?.getBoundingClientRect();
    // Heights are compared exactly; widths in Chromium are whole pixels, which may be rounded in different
    // directions.
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
