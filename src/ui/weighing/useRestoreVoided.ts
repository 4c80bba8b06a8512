import { toast } from '../parts/index.ts';
import { problemMessage } from '../texts/problem-message.ts';
import { useShop } from '../stores/shop.ts';
import { text as weighingText } from '../../words/compiled/window/weighings.ts';
import { useCall } from '../calls/useCall.ts';

/** Undoes the voiding of a weight, from its toast. */
export function useRestoreVoided(): (weighingId: number) => Promise<void> {
  const shop = useShop();
  const restore = useCall('table.restore');
  return async (weighingId) => {
    const answer = await restore.run({ weighingId });
    toast(
      answer.ok
        ? weighingText.restored({ weight: shop.format.mass(answer.value.grams) })
        : problemMessage(answer.problem, shop.format),
    );
  };
}
