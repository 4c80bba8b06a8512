import { toast } from '../parts/index.ts';
import { problemMessage } from '../texts/problem-message.ts';
import { useShop } from '../stores/shop.ts';
import { useCall } from '../calls/useCall.ts';

/** Voids a weight from the toast that reported it. @param reason the text in the history */
export function useUndoWeighing(reason: string): (weighingId: number) => Promise<void> {
  const shop = useShop();
  const take = useCall('table.void');
  return async (weighingId) => {
    const answer = await take.run({ weighingId, reason });
    if (!answer.ok) toast(problemMessage(answer.problem, shop.format));
  };
}
