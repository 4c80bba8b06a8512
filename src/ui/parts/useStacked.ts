import { useResizeObserver } from '@vueuse/core';
import { computed, nextTick, ref, watch, type ComputedRef, type Ref } from 'vue';

/**
 * Whether a table is wider than its frame. If so, each row is shown as a block with stacked cells, so that no column
 * or button is hidden. It becomes a table again once the frame is as wide as the table needs, or other content needs less.
 * @param content changes with what the table shows
 */
export function useStacked(
  frame: Readonly<Ref<HTMLElement | null>>,
  table: Readonly<Ref<HTMLElement | null>>,
  content: () => unknown,
): ComputedRef<boolean> {
  /** Width of the frame, and the last measured width of the table, in CSS pixels. */
  const width = ref(0);
  const needed = ref(0);
  const stacked = computed(() => needed.value > width.value);

  function measure(): void {
    if (!frame.value || !table.value) return;
    const was = stacked.value;
    width.value = frame.value.clientWidth;
    // The width is unknown while stacked; it is measured once the table is shown again.
    if (!was) needed.value = table.value.scrollWidth > width.value + 1 ? table.value.scrollWidth : 0;
  }
  useResizeObserver([frame, table], measure);
  // Measured as a table before the next paint, so that nothing flickers.
  watch(
    content,
    async () => {
      needed.value = 0;
      await nextTick();
      measure();
    },
    { flush: 'post' },
  );
  return stacked;
}
