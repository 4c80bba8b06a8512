import { defineStore } from 'pinia';
import { reactive, ref } from 'vue';
import { onOtherOpening } from '../link/opening.ts';

/**
 * Half-typed entries, kept while one looks elsewhere: each has a name, such as `table 12`. What was kept in the book,
 * or never touched, starts anew the next time. Nothing of it outlives the window or the opening of the book.
 */
export const useDrafts = defineStore('drafts', () => {
  const drafts = new Map<string, { entry: object; rested: string }>();
  /** Where packages were put last, to be offered for the next. */
  const lastPlace = ref('');

  /** The entry of this name as it was left, or a fresh one. */
  function of<T extends object>(name: string, fresh: () => T): T {
    const left = drafts.get(name);
    if (left && JSON.stringify(left.entry) !== left.rested) return left.entry as T;
    const entry = reactive(fresh()) as T;
    drafts.set(name, { entry, rested: JSON.stringify(entry) });
    return entry;
  }

  /** What stands in the entry now is no work of anybody's: it was kept, or put there by the window. */
  function rest(name: string): void {
    const draft = drafts.get(name);
    if (draft) draft.rested = JSON.stringify(draft.entry);
  }

  onOtherOpening(() => {
    drafts.clear();
    lastPlace.value = '';
  });
  return { of, rest, lastPlace };
});
