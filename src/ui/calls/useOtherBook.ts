import { useRouter } from 'vue-router';
import { onOtherBook } from '../link/bridge.ts';
import { toast } from '../parts/index.ts';
import { useShop } from '../stores/shop.ts';
import { text } from '../../words/compiled/window/frame.ts';

/** Follows the desk to another book: shows a notice if another window opened it, and returns to the start. */
export function useOtherBook(): void {
  const shop = useShop();
  const router = useRouter();

  onOtherBook(async (ours) => {
    const before = shop.view;
    await shop.load();
    if (ours || !before || !shop.view || shop.view.opening === before.opening) return;
    // The same ticket may be another animal there.
    await router.replace('/rail');
    if (shop.view.demo) toast(text.demoOpened);
    else toast(before.demo ? text.demoLeft : text.openedAgain);
  });
}
