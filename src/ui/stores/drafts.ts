import { StorageSerializers, useSessionStorage } from '@vueuse/core';
import { defineStore } from 'pinia';
import { reactive, ref } from 'vue';
import { onOtherOpening, useOpening } from '../link/opening.ts';

/** Where drafts lie while the window is loaded anew; the browser forgets it with the window. */
const STORAGE_KEY = 'gambrel.drafts';

/** What was typed into a form of a page or a dialog, by the names of its fields. */
export interface FormDraft {
  /** Every field before anything was typed: it tells the form from another one of the same title. */
  before: Record<string, string>;
  typed: Record<string, string>;
}

interface Draft {
  entry: object;
  /** The entry as it was fresh or saved, as JSON. */
  rested: string;
}

interface Stored {
  opening: string;
  lastPlace: string;
  entries: [name: string, entry: object, rested: string][];
  forms: [key: string, form: FormDraft][];
}

/**
 * Half-typed entries, kept while somebody looks at another page or loads the window anew. Each has a name, such as
 * `table 12`. Saved or untouched entries start fresh the next time. Nothing of it outlives the window or the opening of
 * the book.
 */
export const useDrafts = defineStore('drafts', () => {
  const opening = useOpening();
  const drafts = new Map<string, Draft>();
  /** Forms that were half typed when the window was loaded anew, until they are filled in again. */
  const forms = new Map<string, FormDraft>();
  /** Where packages were put last, offered for the next. */
  const lastPlace = ref('');
  // Written at once: the page goes before the next tick.
  const stored = useSessionStorage<Stored | null>(STORAGE_KEY, null, {
    flush: 'sync',
    serializer: StorageSerializers.object,
  });

  /** The entry of this name as it was left, or a fresh one. */
  function of<T extends object>(name: string, fresh: () => T): T {
    const left = drafts.get(name);
    if (left && JSON.stringify(left.entry) !== left.rested) {
      left.entry = reactive(left.entry);
      return left.entry as T;
    }
    const entry = reactive(fresh()) as T;
    adopt(name, entry);
    return entry;
  }

  /** Keeps an entry under this name from now on; as it is, it is nobody's work. */
  function adopt(name: string, entry: object): void {
    drafts.set(name, { entry, rested: JSON.stringify(entry) });
  }

  /** Marks the current entry as saved, or as filled in by the window. */
  function rest(name: string): void {
    const draft = drafts.get(name);
    if (draft) draft.rested = JSON.stringify(draft.entry);
  }

  /** Writes everything half typed where the window finds it after it was loaded anew. @param typed forms as they stand */
  function store(typed: ReadonlyMap<string, FormDraft>): void {
    if (opening.shown === null) return;
    stored.value = {
      opening: opening.shown,
      lastPlace: lastPlace.value,
      entries: [...drafts].flatMap(([name, { entry, rested }]): Stored['entries'] =>
        JSON.stringify(entry) === rested ? [] : [[name, entry, rested]],
      ),
      forms: [...new Map([...forms, ...typed])],
    };
  }

  /** Takes what the window stored before it was loaded anew, if it is of the book that is open. */
  function begin(): void {
    drafts.clear();
    forms.clear();
    lastPlace.value = '';
    if (opening.shown === null) return;
    const left = stored.value;
    stored.value = null;
    if (left?.opening !== opening.shown) return;
    lastPlace.value = left.lastPlace;
    for (const [name, entry, rested] of left.entries) drafts.set(name, { entry, rested });
    for (const [key, form] of left.forms) forms.set(key, form);
  }

  onOtherOpening(begin);
  begin();
  return { of, adopt, rest, store, forms, lastPlace };
});
