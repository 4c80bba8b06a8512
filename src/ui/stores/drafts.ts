import { StorageSerializers, useSessionStorage } from '@vueuse/core';
import { defineStore } from 'pinia';
import { reactive, ref } from 'vue';
import { onOtherOpening, useOpening } from '../link/opening.ts';

/** The session storage key of drafts; the browser drops it with the window. */
const STORAGE_KEY = 'gambrel.drafts';

/** The values of a form by field name. */
export interface FormDraft {
  /** The initial values, which distinguish the form from another one with the same title. */
  before: Record<string, string>;
  typed: Record<string, string>;
}

interface Draft {
  entry: object;
  /** The initial or last saved entry, as JSON. */
  rested: string;
}

interface Stored {
  opening: string;
  lastPlace: string;
  entries: [name: string, entry: object, rested: string][];
  forms: [key: string, form: FormDraft][];
}

/**
 * Drafts of entries, kept while another page is open or the window reloads. Each has a name, such as `table 12`.
 * Saved or unchanged entries start fresh. Drafts do not outlive the window or the opening of the book.
 */
export const useDrafts = defineStore('drafts', () => {
  const opening = useOpening();
  const drafts = new Map<string, Draft>();
  /** Forms that were half typed before a reload, until they are restored. */
  const forms = new Map<string, FormDraft>();
  /** The last used freezer place, offered for the next packages. */
  const lastPlace = ref('');
  // Written synchronously, because the page unloads before the next tick.
  const stored = useSessionStorage<Stored | null>(STORAGE_KEY, null, {
    flush: 'sync',
    serializer: StorageSerializers.object,
  });

  /** The draft of this name, or a new entry. */
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

  /** Stores an entry under this name; its current value counts as unchanged. */
  function adopt(name: string, entry: object): void {
    drafts.set(name, { entry, rested: JSON.stringify(entry) });
  }

  /** Marks the current value as saved, or as filled in by the window. */
  function rest(name: string): void {
    const draft = drafts.get(name);
    if (draft) draft.rested = JSON.stringify(draft.entry);
  }

  /** Stores all drafts for the next load. @param typed the current forms */
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

  /** Loads the drafts stored before a reload, if they belong to the open book. */
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
