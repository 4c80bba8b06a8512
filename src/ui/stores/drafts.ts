import { defineStore } from 'pinia';
import { reactive, ref } from 'vue';
import { onOtherOpening } from '../link/opening.ts';

/**
 * Unfinished entries, kept while the person visits other pages: each has a name, such as `table 12`. A saved or
 * untouched entry starts fresh. Drafts end with the window and with the opening of the book.
 */
export const useDrafts = defineStore('drafts', () => {
  const drafts = new Map<string, { entry: object; rested: string }>();
  /** The last freezer place, offered for the next packages. */
  const lastPlace = ref('');

  /** The draft of this name, or a fresh entry. */
  function of<T extends object>(name: string, fresh: () => T): T {
    const left = drafts.get(name);
    if (left && JSON.stringify(left.entry) !== left.rested) return left.entry as T;
    const entry = reactive(fresh()) as T;
    drafts.set(name, { entry, rested: JSON.stringify(entry) });
    return entry;
  }

  /** The entry's present content is not a draft: it was saved, or set by the window. */
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
