import { useRouter } from 'vue-router';
import { onOtherBook } from '../link/bridge.ts';
import { toast } from '../parts/index.ts';
import { useShop } from '../stores/shop.ts';
import { frameText as text } from '../texts/en/frame.ts';

/** Follows the desk into another book: a window that did not ask for it says so, and starts over where nothing is open. */
export function useOtherBook(): void {
  const shop = useShop();
  const router = useRouter();

  onOtherBook(async (ours) => {
    const before = shop.view;
    await shop.load();
    if (ours || !before || !shop.view || shop.view.opening === before.opening) return;
    // The same ticket may be another animal here.
    await router.replace('/rail');
    if (shop.view.demo) toast(text.demoOpened);
    else toast(before.demo ? text.demoLeft : text.openedAgain);
  });
}
