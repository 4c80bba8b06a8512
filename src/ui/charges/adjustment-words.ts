import type { AdjustmentInput } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/charges.ts';
import type { Format } from '../texts/format.ts';

/**
 * Describes an adjustment briefly.
 * @param line label of the line that it applies to
 * @param product name of the product that is charged as another line
 * @example adjustmentWords({ kind: 'percent off', rate: 0.1, reason: 'twice' }, format, null, null) // '10% off'
 */
export function adjustmentWords(
  adjustment: AdjustmentInput,
  format: Format,
  line: string | null,
  product: string | null,
): string {
  switch (adjustment.kind) {
    case 'amount off':
      return text.says[adjustment.kind]({ amount: format.money(adjustment.amountMinor) });
    case 'percent off':
      return text.says[adjustment.kind]({ share: format.share(adjustment.rate) });
    case 'free line':
      return text.says[adjustment.kind]({
        label: adjustment.label,
        amount: format.money(adjustment.amountMinor),
      });
    case 'other price':
      return text.says[adjustment.kind]({
        line: line ?? adjustment.lineCode,
        price: format.money(adjustment.amountMinor),
      });
    case 'charge as':
      return text.says[adjustment.kind]({
        product: product ?? adjustment.product,
        line: line ?? adjustment.lineCode,
      });
  }
}
