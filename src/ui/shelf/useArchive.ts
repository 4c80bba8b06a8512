import { toast } from '../parts/index.ts';
import { shelfText as text } from '../texts/en/books/shelf.ts';
import { useUndo } from '../calls/useUndo.ts';

type Shelf = 'species' | 'products' | 'templates';

/** Archives and restores an item of the shelf; each shows a toast with undo. */
export function useArchive<S extends Shelf>(shelf: S) {
  const away = useUndo(`${shelf}.archive`);
  const back = useUndo(`${shelf}.restore`);
  type Key = Parameters<typeof away>[0];

  async function archive(name: string, key: Key): Promise<void> {
    if (await away(key)) toast(text.archived(name), () => void restore(name, key));
  }

  async function restore(name: string, key: Key): Promise<void> {
    if (await back(key)) toast(text.restored(name), () => void archive(name, key));
  }

  return { putAway: archive, bringBack: restore };
}
