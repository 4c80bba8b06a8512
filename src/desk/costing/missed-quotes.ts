/** Billed animals that came of a quote: how far the bill and the meat were outside of what was said. */
import type { Session } from '../session/session.ts';
import type { BilledAnimal } from './season-bills.ts';
import type { CostingView, QuoteMiss, Range } from '../contract/contract.ts';

/** Worst first: by the greater of the two misses, each as a share of what was most likely. */
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

/** How far a value is outside of a range: below it negative, within it 0. `outside(12, { low: 5, mean: 8, high: 10 })` is 2. */
export function outside(value: number, { low, high }: Range): number {
  if (value < low) return value - low;
  return value > high ? value - high : 0;
}

function worst({ offMinor, quotedMinor, offGrams, quotedGrams }: QuoteMiss): number {
  const share = (off: number, mean: number): number => (mean > 0 ? Math.abs(off) / mean : 0);
  return Math.max(share(offMinor, quotedMinor.mean), share(offGrams, quotedGrams.mean));
}
