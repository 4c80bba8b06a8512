import { useEventListener } from '@vueuse/core';
import { computed, nextTick, onMounted, onScopeDispose, ref, shallowRef, watch, type Ref } from 'vue';

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
 * for the browser's own search (Ctrl F), which takes thousands of rows several seconds: where the page has a search of
 * its own, the first press leads there, and only the second one renders them. Column widths are fixed meanwhile,
 * because they would follow the rendered rows.
 */
export function useRowWindow<Row>(table: Ref<HTMLTableElement | null>, rows: () => readonly Row[]) {
  const whole = ref(false);
  const focused = ref(-1);
  const top = ref(0);
  const widths = shallowRef<readonly number[] | null>(null);
  const some = computed(() => rows().length > MANY && !whole.value);

  /** Measured heights by index, and how often one changed. */
  const heights = new Map<number, number>();
  const measured = ref(0);
  /** What of the page is on the screen, CSS pixels from its top. */
  const seen = shallowRef({ from: 0, to: 0 });
  /** Where each row ends. */
  const ends = computed(() => {
    void measured.value;
    let end = top.value;
    return some.value ? rows().map((_, index) => (end += heights.get(index) ?? ROW_PX)) : [];
  });
  const startOf = (index: number): number => ends.value[index - 1] ?? top.value;

  /** The row at a height of the page, by halving; the last one below all. */
  function rowAt(y: number): number {
    let [low, high] = [0, ends.value.length - 1];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((ends.value[middle] ?? Infinity) > y) high = middle;
      else low = middle + 1;
    }
    return low;
  }
  const near = computed((): number[] => {
    const from = rowAt(seen.value.from) - BEYOND;
    const to = rowAt(seen.value.to) + BEYOND;
    const around = Array.from({ length: to - from + 1 }, (_, i) => from + i);
    const aroundFocus = focused.value < 0 ? [] : [focused.value - 1, focused.value, focused.value + 1];
    return [...new Set([...aroundFocus, ...around])]
      .filter((index) => index >= 0 && index < ends.value.length)
      .toSorted((a, b) => a - b);
  });
  const drawn = computed((): DrawnRow<Row>[] => {
    const all = rows();
    if (!some.value) return all.map((row, index) => ({ row, index, gap: 0 }));
    let end = top.value;
    return near.value.flatMap((index) => {
      const row = all[index];
      const gap = startOf(index) - end;
      end = ends.value[index] ?? end;
      return row === undefined ? [] : [{ row, index, gap }];
    });
  });
  const below = computed(() => {
    const last = near.value.at(-1);
    return last === undefined ? 0 : (ends.value.at(-1) ?? 0) - (ends.value[last] ?? 0);
  });

  /** Of the rows of a long table; none until there is one. */
  let sizes: ResizeObserver | undefined;
  function noteSizes(changes: readonly ResizeObserverEntry[]): void {
    for (const { target } of changes) {
      const index = Number((target as HTMLElement).dataset.index);
      const { height } = target.getBoundingClientRect();
      if (!target.isConnected) sizes?.unobserve(target);
      else if (heights.get(index) !== height) {
        heights.set(index, height);
        measured.value += 1;
      }
    }
  }
  onScopeDispose(() => sizes?.disconnect());
  const look = (): void => {
    if (some.value) seen.value = { from: window.scrollY, to: window.scrollY + window.innerHeight };
  };

  async function settle(): Promise<void> {
    widths.value = null;
    focused.value = -1;
    heights.clear();
    look();
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
  useEventListener('scroll', look, { passive: true });
  useEventListener('beforeprint', () => (whole.value = true));
  useEventListener('afterprint', () => (whole.value = false));
  useEventListener('keydown', (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'f' || !some.value) return;
    const search = document.querySelector<HTMLInputElement>('main [type=search]');
    const isThere = search === document.activeElement;
    search?.focus();
    search?.select();
    // An open dialog keeps the focus.
    if (!isThere && search && search === document.activeElement) event.preventDefault();
    else whole.value = true;
  });
  return {
    some,
    drawn,
    below,
    widths,
    focus: (index: number): void => void (focused.value = index),
    measure: (element: unknown): void => {
      if (some.value && element instanceof HTMLTableRowElement)
        (sizes ??= new ResizeObserver(noteSizes)).observe(element);
    },
  };
}
