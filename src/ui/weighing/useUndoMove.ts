import type { WeighingRow } from '../../bridge/contract.ts';
import { useUndo } from '../calls/useUndo.ts';
import { text } from '../../words/compiled/window/moves.ts';
import { placeOf } from './move-places.ts';

interface Back {
  /** The current row. */
  weighingId: number;
  /** Its previous place. */
  animalId: number;
  row: WeighingRow;
}

/** Moves a weight back to its previous place. */
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
