import type { TillEntry, TillSum } from '../contract/contract.ts';

/** The method that is counted in the drawer. */
export const CASH = 'cash';

/**
 * Sums by method, and within each by person; the sum over all persons comes first.
 * @example // $50 in cash by MK: one sum of cash for all, one for MK
 */
export function tillSums(entries: readonly TillEntry[]): TillSum[] {
  const methods = [...new Set(entries.map(({ method }) => method))].sort(
    (a, b) => Number(b === CASH) - Number(a === CASH) || (a < b ? -1 : 1),
  );
  return methods.flatMap((method) => {
    const of = entries.filter((entry) => entry.method === method);
    const people = [...new Set(of.map(({ by }) => by))].sort();
    return [
      sumOf(method, null, of),
      ...people.map((by) =>
        sumOf(
          method,
          by,
          of.filter((entry) => entry.by === by),
        ),
      ),
    ];
  });
}

/** What the entries add to the drawer, in minor units: cash only. */
export function cashOf(entries: readonly TillEntry[]): number {
  return total(entries.filter(({ method }) => method === CASH));
}

function sumOf(method: string, by: string | null, entries: readonly TillEntry[]): TillSum {
  const paid = entries.filter(({ what }) => what === 'payment');
  return {
    method,
    by,
    count: entries.length,
    paidMinor: total(paid.filter(({ kind }) => kind !== 'refund')),
    refundedMinor: total(paid.filter(({ kind }) => kind === 'refund')),
    voidedMinor: total(entries.filter(({ what }) => what === 'void')),
    totalMinor: total(entries),
  };
}

/** Exact: amounts and their number are bounded (`MAX_MINOR`). */
export function total(entries: readonly TillEntry[]): number {
  return entries.reduce((sum, { minor }) => sum + minor, 0);
}
