import { toast } from '../parts/index.ts';
import { text } from '../../words/compiled/window/books/shelf.ts';
import { useUndo } from '../calls/useUndo.ts';

type Shelf = 'species' | 'products' | 'templates';

/** Archives and restores an item of the shelf; each shows a toast with undo. */
export function useArchive<S extends Shelf>(shelf: S) {
  const archiveCall = useUndo(`${shelf}.archive`);
  const restoreCall = useUndo(`${shelf}.restore`);
  type Key = Parameters<typeof archiveCall>[0];

  async function archive(name: string, key: Key): Promise<void> {
    if (await archiveCall(key)) toast(text.archived({ name }), () => void restore(name, key));
  }

  async function restore(name: string, key: Key): Promise<void> {
    if (await restoreCall(key)) toast(text.restored({ name }), () => void archive(name, key));
  }

  return { archive, restore };
}
