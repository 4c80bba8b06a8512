import type { AdjustmentInput } from '../../bridge/contract.ts';
import { chargesText as text } from '../texts/en/charges.ts';
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
  const { says } = text;
  switch (adjustment.kind) {
    case 'amount off':
      return says[adjustment.kind](format.money(adjustment.amountMinor));
    case 'percent off':
      return says[adjustment.kind](format.share(adjustment.rate));
    case 'free line':
      return says[adjustment.kind](adjustment.label, format.money(adjustment.amountMinor));
    case 'other price':
      return says[adjustment.kind](line ?? adjustment.lineCode, format.money(adjustment.amountMinor));
    case 'charge as':
      return says[adjustment.kind](product ?? adjustment.product, line ?? adjustment.lineCode);
  }
}
