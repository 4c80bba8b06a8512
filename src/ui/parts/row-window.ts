import { useEventListener } from '@vueuse/core';
import { defaultRangeExtractor, type Range, useWindowVirtualizer } from '@tanstack/vue-virtual';
import { computed, nextTick, onMounted, ref, shallowRef, watch, type Ref } from 'vue';

/** From this many rows on, only those near the screen are rendered: thousands take seconds. */
const MANY = 500;
/** Assumed height of an unrendered row, in CSS pixels; rendered ones are measured. */
const ROW_PX = 64;
/** Rows rendered beyond the visible area, so that Tab and a turn of the wheel find them. */
const BEYOND = 12;

/** A rendered row, and the height of the gap above it in CSS pixels. */
interface DrawnRow<Row> {
  row: Row;
  index: number;
  gap: number;
}

/**
 * The rows of a long table to render: those near the screen and around the focused one. All of them for print, and
 * for the browser's own search (Ctrl F). Column widths are fixed meanwhile, because they would follow the rendered
 * rows.
 */
export function useRowWindow<Row>(table: Ref<HTMLTableElement | null>, rows: () => readonly Row[]) {
  const whole = ref(false);
  const focused = ref(-1);
  const top = ref(0);
  const widths = shallowRef<readonly number[] | null>(null);
  const some = computed(() => rows().length > MANY && !whole.value);

  const near = (range: Range): number[] => {
    const aroundFocus = [focused.value - 1, focused.value, focused.value + 1].filter(
      (index) => focused.value >= 0 && index >= 0 && index < range.count,
    );
    return [...new Set([...aroundFocus, ...defaultRangeExtractor(range)])].toSorted((a, b) => a - b);
  };
  const virtual = useWindowVirtualizer<HTMLTableRowElement>(
    computed(() => ({
      enabled: some.value,
      count: some.value ? rows().length : 0,
      estimateSize: () => ROW_PX,
      overscan: BEYOND,
      scrollMargin: top.value,
      rangeExtractor: near,
    })),
  );
  const drawn = computed((): DrawnRow<Row>[] => {
    const all = rows();
    if (!some.value) return all.map((row, index) => ({ row, index, gap: 0 }));
    let end = top.value;
    return virtual.value.getVirtualItems().flatMap((item) => {
      const gap = item.start - end;
      end = item.end;
      const row = all[item.index];
      return row === undefined ? [] : [{ row, index: item.index, gap }];
    });
  });
  const below = computed(() => {
    const last = some.value ? virtual.value.getVirtualItems().at(-1) : undefined;
    return last ? top.value + virtual.value.getTotalSize() - last.end : 0;
  });

  async function settle(): Promise<void> {
    widths.value = null;
    focused.value = -1;
    if (!some.value) return;
    await nextTick();
    const body = table.value?.tBodies[0];
    if (!body) return;
    top.value = body.getBoundingClientRect().top + window.scrollY;
    await nextTick();
    widths.value = [...(table.value?.querySelectorAll('thead th') ?? [])].map(
      (cell) => cell.getBoundingClientRect().width,
    );
  }
  watch([some, rows], settle, { flush: 'post' });

  onMounted(() => void settle());
  useEventListener('resize', () => void settle());
  useEventListener('beforeprint', () => (whole.value = true));
  useEventListener('afterprint', () => (whole.value = false));
  useEventListener('keydown', (event) => {
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'f') whole.value = true;
  });
  return {
    some,
    drawn,
    below,
    widths,
    focus: (index: number): void => void (focused.value = index),
    measure: (element: unknown): void => {
      if (some.value && element instanceof HTMLTableRowElement) virtual.value.measureElement(element);
    },
  };
}
