import { toast } from '../parts/index.ts';
import { useShop } from '../stores/shop.ts';
import { useCall } from '../calls/useCall.ts';
import { problemMessage } from '../texts/problem-message.ts';

/** Restores a backup; the toast's undo brings the replaced book back. */
export function useRestore() {
  const shop = useShop();
  const restore = useCall('shop.restore');

  /** Resolves to whether it succeeded; the error is in `restore.problem`. */
  async function restoreBackup(
    wanted: { path: string; folder: string; passphrase: string; recordsOnly: boolean },
    done: string,
  ): Promise<boolean> {
    const answer = await restore.run(wanted);
    if (!answer.ok) return false;
    const { setAside } = answer.value;
    await shop.load();
    toast(done, setAside === null ? undefined : () => void undo(setAside));
    return true;
  }

  async function undo(path: string): Promise<void> {
    const answer = await restore.run({ path });
    if (answer.ok) await shop.load();
    else toast(problemMessage(answer.problem, shop.format));
  }

  return { goBack: restoreBackup, restore };
}
