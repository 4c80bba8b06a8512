import type { TillView } from '../../bridge/contract.ts';
import { parseMoney } from '../../core/values/money.ts';

/** How the drawer is counted, as typed. */
export interface CountForm {
  way: 'total' | 'pieces';
  total: string;
  /** By denomination in minor units. */
  pieces: Record<number, string>;
  note: string;
}

export const emptyCount = (): CountForm => ({ way: 'total', total: '', pieces: {}, note: '' });

/** Pieces as typed for each denomination: whole numbers, empty as none. Null where one cannot be read. */
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

/** What was counted, in minor units; null while nothing was, or while it cannot be read. */
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
    return null; // Half typed; the desk says what is wrong when the day is closed.
  }
}

/** The sums by method that a page showed when its day was closed. */
export function seenSums(sums: TillView['sums']): { method: string; count: number; totalMinor: number }[] {
  return sums
    .filter(({ by }) => by === null)
    .map(({ method, count, totalMinor }) => ({ method, count, totalMinor }));
}
