import { useEventListener } from '@vueuse/core';
import { ref, type Ref } from 'vue';
import { isGroup, type Group } from './groups.ts';

/** A group is in sight once its head stands below the bar of the window. */
const BELOW_BAR = 160;

/** Which group of the column is in sight, and the way to one. */
export function useGroupInSight(column: Readonly<Ref<HTMLElement | null>>) {
  const at = ref<Group>('shop');

  function look(): void {
    const groups = [...(column.value?.querySelectorAll<HTMLElement>('[data-group]') ?? [])];
    const atEnd = innerHeight + scrollY >= document.documentElement.scrollHeight - 2;
    const passed = groups.filter((group) => group.getBoundingClientRect().top < BELOW_BAR);
    // The last groups are too short to come to the top.
    const name = (atEnd && scrollY > 0 ? groups : passed).at(-1)?.dataset['group'];
    if (isGroup(name)) at.value = name;
  }
  useEventListener(window, 'scroll', look, { passive: true });

  /** The next Tab goes on from there. */
  function go(group: Group): void {
    const element = column.value?.querySelector<HTMLElement>(`[data-group=${group}]`);
    element?.scrollIntoView();
    element?.focus({ preventScroll: true });
  }

  return { at, go };
}
