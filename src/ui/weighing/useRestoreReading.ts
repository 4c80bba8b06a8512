import type { WeighingRow } from '../../bridge/contract.ts';
import { toast } from '../parts/index.ts';
import { problemMessage } from '../texts/problem-message.ts';
import { useShop } from '../stores/shop.ts';
import { weighingText } from '../texts/en/animal/weighings.ts';
import { typedWithUnit } from '../texts/typed.ts';
import { useCall } from '../calls/useCall.ts';

/** Undoes a correction: the old reading is added as a new row, which voids the correction; nothing is overwritten. */
export function useRestoreReading() {
  const shop = useShop();
  const correct = useCall('table.correct');

  /** @param correctionId the weighing that replaced `old` */
  return async function restoreReading(old: WeighingRow, correctionId: number): Promise<void> {
    const answer = await correct.run({
      weighingId: correctionId,
      typed: typedWithUnit(old.typed, old.unit),
      tareTyped: old.tareTyped && old.tareUnit ? typedWithUnit(old.tareTyped, old.tareUnit) : '',
      source: old.source === 'import' ? 'typed' : old.source,
      reason: weighingText.reasons.correctionUndone,
      confirmed: true,
    });
    if (!answer.ok) toast(problemMessage(answer.problem, shop.format));
  };
}
