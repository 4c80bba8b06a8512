import { toast } from '../parts/index.ts';
import { text as weighingText } from '../../words/compiled/window/weighings.ts';
import { useUndo } from '../calls/useUndo.ts';
import { useRestoreVoided } from './useRestoreVoided.ts';

/** Voids a weight from the toast that reported it. @param reason the text in the history */
export function useUndoWeighing(reason: string): (weighingId: number) => Promise<void> {
  const undo = useUndo('table.void');
  const restoreVoided = useRestoreVoided();
  return async (weighingId) => {
    const done = await undo({ weighingId, reason });
    if (done) toast(weighingText.undone, () => void restoreVoided(weighingId));
  };
}
