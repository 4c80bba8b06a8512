import type { BillState } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/bill.ts';
import type { Format } from '../texts/format.ts';

/**
 * The billing state of an animal.
 * @example stateOf({ billed: true, number: 3, dueMinor: 4550, currency: 'USD' }, format) // 'Bill 3: $45.50 due.'
 */
export function stateOf({ number, dueMinor, currency }: BillState, format: Format): string {
  if (number === null) return text.notBilled;
  return text.stateOf({
    owed: dueMinor > 0 ? 'due' : dueMinor < 0 ? 'refund' : 'paid',
    number: String(number),
    amount: format.money(Math.abs(dueMinor), currency),
  });
}
