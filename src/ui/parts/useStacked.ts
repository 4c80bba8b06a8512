import { useResizeObserver } from '@vueuse/core';
import { computed, ref, type ComputedRef, type Ref } from 'vue';

/**
 * Whether a table is wider than its frame: each row is then shown as a block, its cells one below the other, so that no
 * column and no button lies out of sight. It becomes a table again where the frame is as wide as the table was.
 */
export function useStacked(
  frame: Readonly<Ref<HTMLElement | null>>,
  table: Readonly<Ref<HTMLElement | null>>,
): ComputedRef<boolean> {
  /** Width of the frame, and what the table last needed, in CSS pixels. */
  const width = ref(0);
  const needed = ref(0);
  const stacked = computed(() => needed.value > width.value);

  function measure(): void {
    if (!frame.value || !table.value) return;
    const was = stacked.value;
    width.value = frame.value.clientWidth;
    // Blocks say nothing of the table that they were: it is measured once it is a table again.
    if (!was) needed.value = table.value.scrollWidth > width.value + 1 ? table.value.scrollWidth : 0;
  }
  useResizeObserver([frame, table], measure);
  return stacked;
}
