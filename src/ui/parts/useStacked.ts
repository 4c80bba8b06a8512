import { useResizeObserver } from '@vueuse/core';
import { computed, nextTick, ref, watch, type ComputedRef, type Ref } from 'vue';

/** As a table; as one with fewer columns, whose rows have a second line; or with each row as a block of labeled cells. */
export type TableShape = 'table' | 'folded' | 'stacked';

/**
 * The shape in which a table fits its frame, so that no column or button is hidden. It widens again once the
 * frame is as wide as the table needs, or other content needs less.
 * @param folds whether some columns can be shown below others
 * @param content changes with what the table shows
 */
export function useStacked(
  frame: Readonly<Ref<HTMLElement | null>>,
  table: Readonly<Ref<HTMLElement | null>>,
  folds: () => boolean,
  content: () => unknown,
): ComputedRef<TableShape> {
  /** Width of the frame, and the last measured width of the table in each shape, 0 if it fits; in CSS pixels. */
  const width = ref(0);
  const needed = ref({ table: 0, folded: 0 });
  const shape = computed<TableShape>(() => {
    if (needed.value.table <= width.value) return 'table';
    return folds() && needed.value.folded <= width.value ? 'folded' : 'stacked';
  });

  /** Measured before the next paint, so that nothing flickers. */
  async function measure(): Promise<void> {
    if (!frame.value || !table.value) return;
    const was = shape.value;
    width.value = frame.value.clientWidth;
    // The width is unknown while stacked; it is measured once the table is shown again.
    if (was !== 'stacked')
      needed.value[was] = table.value.scrollWidth > width.value + 1 ? table.value.scrollWidth : 0;
    if (shape.value !== was && shape.value === 'folded') {
      await nextTick();
      await measure();
    }
  }
  useResizeObserver([frame, table], () => void measure());
  watch(
    content,
    async () => {
      needed.value = { table: 0, folded: 0 };
      await nextTick();
      await measure();
    },
    { flush: 'post' },
  );
  return shape;
}
