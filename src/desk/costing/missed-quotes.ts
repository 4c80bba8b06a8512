/** Billed animals with a quote: how far bill and take-home were outside the quoted ranges. */
import type { Session } from '../session/session.ts';
import type { BilledAnimal } from './season-bills.ts';
import type { CostingView, QuoteMiss, Range } from '../contract/contract.ts';

/** Worst first: by the greater of the two misses, each relative to the quoted mean. */
export function missedQuotes(session: Session, bills: readonly BilledAnimal[]): CostingView['quotes'] {
  const compared = bills.flatMap((bill) => {
    if (!bill.quote) return [];
    const own = bill.takeHomeGrams;
    const fat = Object.values(bill.amounts.fats ?? {}).reduce((total, grams) => total + grams, 0);
    const takeHomeGrams = own === null ? null : own + fat;
    const { name, minor: quotedMinor, grams: quotedGrams } = bill.quote;
    const miss: QuoteMiss = {
      ticket: bill.ticket,
      quote: name,
      speciesName: session.species.of(bill.species).name,
      billMinor: bill.totalMinor,
      quotedMinor,
      offMinor: outside(bill.totalMinor, quotedMinor),
      takeHomeGrams,
      quotedGrams,
      offGrams: takeHomeGrams === null ? 0 : outside(takeHomeGrams, quotedGrams),
    };
    return [miss];
  });
  return {
    compared: compared.length,
    missed: compared
      .filter(({ offMinor, offGrams }) => offMinor !== 0 || offGrams !== 0)
      .sort((a, b) => worst(b) - worst(a)),
  };
}

/**
 * Signed distance of a value from a range: negative below, 0 within. `outside(12, { low: 5, mean: 8, high: 10 })`
 * is 2.
 */
export function outside(value: number, { low, high }: Range): number {
  if (value < low) return value - low;
  return value > high ? value - high : 0;
}

function worst({ offMinor, quotedMinor, offGrams, quotedGrams }: QuoteMiss): number {
  const share = (off: number, mean: number): number => (mean > 0 ? Math.abs(off) / mean : 0);
  return Math.max(share(offMinor, quotedMinor.mean), share(offGrams, quotedGrams.mean));
}
