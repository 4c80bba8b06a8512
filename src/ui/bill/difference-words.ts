/** Explains why a billed line differs from the quote, in short phrases whose amounts sum to the difference. */
import type { LineCalculation, QuoteDifference } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/bill.ts';
import { amountOf, priceOf } from './line-amounts.ts';
import type { Format } from '../texts/format.ts';

/** An amount with its sign: `+$19.00`, `-$4.50`. */
export function signedMoney(minor: number, format: Format): string {
  return minor > 0 ? `+${format.money(minor)}` : format.money(minor);
}

/**
 * One phrase for each reason; empty if the line matches the quote.
 * @example // 400 lb billed instead of 380 lb quoted, at the same 95 cents
 * whyItDiffers(line, format) // ['400.00 lb instead of 380.00 lb: +$19.00']
 */
export function whyItDiffers(line: QuoteDifference, format: Format): string[] {
  const { quoted, billed, split } = line;
  if (line.differenceMinor === 0) return [];
  if (line.code === 'tax') return [text.followsTax];
  if ([quoted, billed].some((one) => one?.basis === 'minimum')) return [text.followsMinimum];
  if (split && quoted && billed) {
    const more = quoted.basis === 'percent' ? 'insteadOfSum' : 'instead';
    return [
      ...phrase(more, split.moreMinor, quantityText(quoted, format), quantityText(billed, format), format),
      ...phrase(
        'instead',
        split.priceMinor,
        unitPriceText(quoted, format),
        unitPriceText(billed, format),
        format,
      ),
    ];
  }
  if (line.quotedMinor === 0) return [text.notQuoted];
  return line.billedMinor === 0 ? [text.notCharged] : [text.noAmounts];
}

function phrase(
  key: 'instead' | 'insteadOfSum',
  minor: number,
  before: string,
  after: string,
  format: Format,
): string[] {
  return minor === 0 ? [] : [text[key]({ after, before, amount: signedMoney(minor, format) })];
}

/** For a percentage, the amount that it applies to. */
function quantityText(side: LineCalculation, format: Format): string {
  return side.basis === 'percent' ? format.money(side.unitPriceMinor) : amountOf(side, format);
}

function unitPriceText(side: LineCalculation, format: Format): string {
  return side.basis === 'percent' ? amountOf(side, format) : priceOf(side, format);
}
