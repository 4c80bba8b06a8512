import type { TillView } from '../../bridge/contract.ts';
import { parseMoney } from '../../core/values/money.ts';

/** The count of the drawer as typed. */
export interface CountForm {
  way: 'total' | 'pieces';
  total: string;
  /** By denomination in minor units. */
  pieces: Record<number, string>;
  note: string;
}

export const emptyCount = (): CountForm => ({ way: 'total', total: '', pieces: {}, note: '' });

/** Parses the count of each denomination: whole numbers, empty as none. Null if one is invalid. */
export function readPieces(
  typed: Readonly<Record<number, string>>,
  denominations: readonly number[],
): [number, number][] | null {
  const pieces = denominations.map((one): [number, number] => {
    const text = (typed[one] ?? '').trim();
    return [one, text === '' ? 0 : /^\d{1,5}$/.test(text) ? Number(text) : NaN];
  });
  return pieces.some(([, count]) => Number.isNaN(count)) ? null : pieces.filter(([, count]) => count > 0);
}

/** The counted total in minor units; null if empty or invalid. */
export function countedMinor(
  form: CountForm,
  currency: string,
  denominations: readonly number[],
): number | null {
  if (form.way === 'pieces') {
    if (Object.values(form.pieces).every((text) => text.trim() === '')) return null;
    const pieces = readPieces(form.pieces, denominations);
    return pieces && pieces.reduce((sum, [one, count]) => sum + one * count, 0);
  }
  try {
    return parseMoney(form.total, currency);
  } catch {
    return null; // Incomplete input; the desk reports the error when the day is closed.
  }
}

/** The totals by method that were shown when the day was closed. */
export function seenSums(sums: TillView['sums']): { method: string; count: number; totalMinor: number }[] {
  return sums
    .filter(({ by }) => by === null)
    .map(({ method, count, totalMinor }) => ({ method, count, totalMinor }));
}
