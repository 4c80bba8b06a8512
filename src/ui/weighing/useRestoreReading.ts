import type { WeighingRow } from '../../bridge/contract.ts';
import { text as weighingText } from '../../words/compiled/window/weighings.ts';
import { typedWithUnit } from '../texts/typed.ts';
import { useUndo } from '../calls/useUndo.ts';

/** Undoes a correction: the old reading is added as a new row, which voids the correction; nothing is overwritten. */
export function useRestoreReading() {
  const correct = useUndo('table.correct');

  /** @param correctionId the weighing that replaced `old` */
  return async function restoreReading(old: WeighingRow, correctionId: number): Promise<void> {
    await correct({
      weighingId: correctionId,
      typed: typedWithUnit(old.typed, old.unit),
      tareTyped: old.tareTyped && old.tareUnit ? typedWithUnit(old.tareTyped, old.tareUnit) : '',
      source: old.source === 'import' ? 'typed' : old.source,
      reason: weighingText.reasons.correctionUndone,
      confirmed: true,
    });
  };
}
