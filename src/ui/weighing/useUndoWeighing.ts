import { toast } from '../parts/index.ts';
import { problemMessage } from '../texts/problem-message.ts';
import { useShop } from '../stores/shop.ts';
import { weighingText } from '../texts/en/animal/weighings.ts';
import { useCall } from '../calls/useCall.ts';
import { useRestoreVoided } from './useRestoreVoided.ts';

/** Voids a weight from the toast that reported it. @param reason the text in the history */
export function useUndoWeighing(reason: string): (weighingId: number) => Promise<void> {
  const shop = useShop();
  const take = useCall('table.void');
  const restoreVoided = useRestoreVoided();
  return async (weighingId) => {
    const answer = await take.run({ weighingId, reason });
    if (answer.ok) toast(weighingText.undone, () => void restoreVoided(weighingId));
    else toast(problemMessage(answer.problem, shop.format));
  };
}
