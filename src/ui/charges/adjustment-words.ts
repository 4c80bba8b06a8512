import type { AdjustmentAsked } from '../../bridge/contract.ts';
import { chargesText as text } from '../texts/en/charges.ts';
import type { Format } from '../texts/format.ts';

/**
 * Describes an adjustment briefly.
 * @param line label of the line that it applies to; @param product name of the product that is charged as another
 * line
 * @example adjustmentWords({ kind: 'percent off', rate: 0.1, reason: 'twice' }, format, null, null) // '10 % off'
 */
export function adjustmentWords(
  asked: AdjustmentAsked,
  format: Format,
  line: string | null,
  product: string | null,
): string {
  const { says } = text;
  switch (asked.kind) {
    case 'amount off':
      return says[asked.kind](format.money(asked.amountMinor));
    case 'percent off':
      return says[asked.kind](format.share(asked.rate));
    case 'free line':
      return says[asked.kind](asked.label, format.money(asked.amountMinor));
    case 'other price':
      return says[asked.kind](line ?? asked.lineCode, format.money(asked.amountMinor));
    case 'charge as':
      return says[asked.kind](product ?? asked.product, line ?? asked.lineCode);
  }
}
