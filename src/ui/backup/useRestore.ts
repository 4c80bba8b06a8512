import { useCall } from '../calls/useCall.ts';
import { useRestored } from '../calls/useRestored.ts';

/** Restores a backup; the toast's undo brings the replaced book back. */
export function useRestore() {
  const restore = useCall('shop.restore');
  const restored = useRestored();

  /** Resolves to whether it succeeded; the error is in `restore.problem`. */
  async function restoreBackup(
    wanted: { path: string; folder: string; passphrase: string; recordsOnly: boolean },
    done: string,
  ): Promise<boolean> {
    const answer = await restore.run(wanted);
    if (!answer.ok) return false;
    await restored(answer.value.setAside, done);
    return true;
  }

  return { goBack: restoreBackup, restore };
}
