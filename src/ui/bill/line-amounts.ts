import type { BillLineRow } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/bill.ts';
import type { Format } from '../texts/format.ts';
import { timeText } from '../charges/time-text.ts';

/**
 * The quantity of a line.
 * @example amountOf({ basis: 'hanging', quantity: 84.5, unit: 'lb', … }) // '84.50 lb'
 */
export function amountOf(line: Pick<BillLineRow, 'basis' | 'quantity' | 'unit'>, format: Format): string {
  if (line.unit) return `${format.number(line.quantity, 2)} ${line.unit}`;
  switch (line.basis) {
    case 'percent':
      return format.share(line.quantity);
    case 'hour':
      return timeText(Math.round(line.quantity * 60));
    case 'package':
      return text.packages({ n: line.quantity }, format);
    default:
      return format.number(line.quantity, 0);
  }
}

/** The unit price; empty if the amount alone is enough. */
export function priceOf(
  line: Pick<BillLineRow, 'basis' | 'unitPriceMinor' | 'unit'>,
  format: Format,
): string {
  if (line.basis === 'percent' || line.basis === 'minimum') return '';
  const price = format.money(line.unitPriceMinor);
  return line.unit ? `${price} / ${line.unit}` : price;
}
