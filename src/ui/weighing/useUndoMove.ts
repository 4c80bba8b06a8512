import type { WeighingRow } from '../../bridge/contract.ts';
import { toast } from '../parts/index.ts';
import { useCall } from '../calls/useCall.ts';
import { useShop } from '../stores/shop.ts';
import { moveText as text } from '../texts/en/counter/corrections.ts';
import { problemMessage } from '../texts/problem-message.ts';
import { placeOf } from './move-places.ts';

interface Back {
  /** The row that stands now. */
  weighingId: number;
  /** Where it was. */
  animalId: number;
  row: WeighingRow;
}

/** Moves a weight back to where it was. */
export function useUndoMove(): (back: Back) => Promise<void> {
  const shop = useShop();
  const move = useCall('table.move');
  return async ({ weighingId, animalId, row }) => {
    const to = placeOf(row);
    const answer = await move.run({
      weighingId,
      animalId,
      ...(to && { to }),
      reason: text.undone,
      confirmed: true,
    });
    if (!answer.ok) toast(problemMessage(answer.problem, shop.format));
  };
}
