import type { WeighingRow } from '../../bridge/contract.ts';
import { useUndo } from '../calls/useUndo.ts';
import { moveText as text } from '../texts/en/counter/corrections.ts';
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
  const move = useUndo('table.move');
  return async ({ weighingId, animalId, row }) => {
    const to = placeOf(row);
    await move({
      weighingId,
      animalId,
      ...(to && { to }),
      reason: text.undone,
      confirmed: true,
    });
  };
}
