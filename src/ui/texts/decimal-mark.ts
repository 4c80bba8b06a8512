/** Numbers that a field shows before anybody types: with the shop's decimal mark, as all numbers beside it. What is typed may have either. */
import { decimalText } from '../../core/values/money.ts';
import { writer } from '../../words/speech.ts';

/** @example withMark('0.5 kg') // '0,5 kg' in a shop whose numbers are written as in Québec */
export function withMark(number: string): string {
  return number.replace('.', writer().decimal);
}

/**
 * Minor units as editable text.
 * @example moneyTyped(-1250, 'USD') // '-12.50', or '-12,50'
 */
export function moneyTyped(minor: number, currency: string): string {
  return withMark(decimalText(minor, currency));
}
