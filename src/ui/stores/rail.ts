import { defineStore } from 'pinia';
import { computed } from 'vue';
import { onOtherOpening } from '../link/opening.ts';
import { useLive } from '../use/useLive.ts';

/** The rail, loaded once for the header and the Rail page. Longest hung first, which is the cutting order. */
export const useRail = defineStore('rail', () => {
  const { value: view, problem, refresh } = useLive('rail.get', () => ({}));
  onOtherOpening(() => {
    view.value = null;
    void refresh();
  });
  const sorted = computed(() =>
    [...(view.value?.hooks ?? [])].sort((a, b) => b.days - a.days || a.ticket.localeCompare(b.ticket)),
  );
  /** On a hook or on the table. */
  const hooks = computed(() => sorted.value.filter(({ stage }) => stage !== 'packing'));
  /** Cut, and being packed. */
  const packing = computed(() => sorted.value.filter(({ stage }) => stage === 'packing'));
  return { view, problem, hooks, packing };
});
