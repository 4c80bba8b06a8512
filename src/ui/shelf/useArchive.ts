import { toast } from '../parts/index.ts';
import { problemMessage } from '../texts/problem-message.ts';
import { useShop } from '../stores/shop.ts';
import { shelfText as text } from '../texts/en/books/shelf.ts';
import { useCall } from '../calls/useCall.ts';

type Shelf = 'species' | 'products' | 'templates';

/** Archives and restores an item of the shelf; each shows a toast with undo. */
export function useArchive<S extends Shelf>(shelf: S) {
  const shop = useShop();
  const away = useCall(`${shelf}.archive`);
  const back = useCall(`${shelf}.restore`);
  type Key = Parameters<typeof away.run>[0];

  async function archive(name: string, key: Key): Promise<void> {
    const answer = await away.run(key);
    if (answer.ok) toast(text.archived(name), () => void restore(name, key));
    else toast(problemMessage(answer.problem, shop.format));
  }

  async function restore(name: string, key: Key): Promise<void> {
    const answer = await back.run(key);
    if (answer.ok) toast(text.restored(name), () => void archive(name, key));
    else toast(problemMessage(answer.problem, shop.format));
  }

  return { putAway: archive, bringBack: restore };
}
