import { withMark } from './decimal-mark.ts';

/**
 * Parses a percentage as a fraction; null if it is not a number from 0 to 100.
 * @example readPercent('12,5 %') // 0.125
 */
export function readPercent(text: string): number | null {
  const match = /^\s*(\d{1,3}(?:[.,]\d{1,2})?)\s*%?\s*$/.exec(text);
  if (!match) return null;
  // Rounded to hundredths of a percent, so that 12.5 does not become 0.12499999.
  const share = Math.round(Number(match[1]?.replace(',', '.')) * 100) / 10_000;
  return share <= 1 ? share : null;
}

/** A fraction as editable text with the shop's decimal mark: 0.125 → `12.5`. */
export function percentText(share: number): string {
  return withMark(String(Math.round(share * 10_000) / 100));
}
