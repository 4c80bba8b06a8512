import { toast } from '../parts/index.ts';
import { say } from '../texts/say.ts';
import { useShop } from '../stores/shop.ts';
import { shelfText as text } from '../texts/en/books/shelf.ts';
import { useCall } from '../calls/useCall.ts';

type Shelf = 'species' | 'products' | 'templates';

/** Puts something of the shelf away and brings it back; each says so, and the toast undoes it. */
export function useShelfMoves<S extends Shelf>(shelf: S) {
  const shop = useShop();
  const away = useCall(`${shelf}.archive`);
  const back = useCall(`${shelf}.restore`);
  type Key = Parameters<typeof away.run>[0];

  async function putAway(name: string, key: Key): Promise<void> {
    const answer = await away.run(key);
    if (answer.ok) toast(text.isAway(name), () => void bringBack(name, key));
    else toast(say(answer.problem, shop.format));
  }

  async function bringBack(name: string, key: Key): Promise<void> {
    const answer = await back.run(key);
    if (answer.ok) toast(text.isBack(name), () => void putAway(name, key));
    else toast(say(answer.problem, shop.format));
  }

  return { putAway, bringBack };
}
