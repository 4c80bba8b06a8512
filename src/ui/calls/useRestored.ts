import { toast } from '../parts/index.ts';
import { problemMessage } from '../texts/problem-message.ts';
import { useShop } from '../stores/shop.ts';
import { useCall } from './useCall.ts';

/** Shows the book that took the place of another, which the toast's undo brings back. */
export function useRestored() {
  const shop = useShop();
  const restore = useCall('shop.restore');

  async function undo(path: string): Promise<void> {
    const answer = await restore.run({ path });
    if (answer.ok) await shop.load();
    else toast(problemMessage(answer.problem, shop.format));
  }

  return async (setAside: string | null, done: string): Promise<void> => {
    await shop.load();
    toast(done, setAside === null ? undefined : () => void undo(setAside));
  };
}
