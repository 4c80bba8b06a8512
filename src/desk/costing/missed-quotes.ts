/** A season's quotes that missed: bills and take-home outside the quoted ranges. */
import { held, keptQuotes, outside } from '../quotes/kept-quotes.ts';
import type { Session } from '../session/session.ts';
import type { BilledAnimal } from './season-bills.ts';
import type { CheckedQuote, CostingView, QuoteMiss } from '../contract/contract.ts';

/** Worst first: by the greater of the two misses, each relative to the quoted mean. */
export function missedQuotes(
  session: Session,
  season: number,
  bills: readonly BilledAnimal[],
): CostingView['quotes'] {
  const kept = keptQuotes(session, season, session.book.seasonRows(season));
  const meat = new Map(kept.map((one) => [one.ticket, one]));
  const billed = bills.flatMap((bill) =>
    bill.quote ? [missOf(session, bill, bill.quote, meat.get(bill.ticket))] : [],
  );
  const tickets = new Set(billed.map(({ ticket }) => ticket));
  const unbilled = kept.filter(({ ticket }) => !tickets.has(ticket)).map(unbilledMiss);
  return {
    meat: { compared: kept.length, missed: kept.filter((one) => !held(one)).length },
    bills: { compared: billed.length, missed: billed.filter(({ offMinor }) => offMinor !== 0).length },
    missed: [...billed, ...unbilled]
      .filter(({ offMinor, offGrams }) => offMinor !== 0 || offGrams !== 0)
      .sort((a, b) => worst(b) - worst(a)),
  };
}

function missOf(
  session: Session,
  bill: BilledAnimal,
  { name, minor: quotedMinor, grams: quotedGrams }: NonNullable<BilledAnimal['quote']>,
  meat: CheckedQuote | undefined,
): QuoteMiss {
  return {
    ticket: bill.ticket,
    quote: name,
    speciesName: session.species.of(bill.species).name,
    billMinor: bill.totalMinor,
    quotedMinor,
    offMinor: outside(bill.totalMinor, quotedMinor),
    takeHomeGrams: meat?.takeHomeGrams ?? null,
    quotedGrams,
    offGrams: meat ? outside(meat.takeHomeGrams, quotedGrams) : 0,
  };
}

function unbilledMiss({ ticket, quote, speciesName, takeHomeGrams, quotedGrams }: CheckedQuote): QuoteMiss {
  return {
    ticket,
    quote,
    speciesName,
    billMinor: null,
    quotedMinor: null,
    offMinor: 0,
    takeHomeGrams,
    quotedGrams,
    offGrams: outside(takeHomeGrams, quotedGrams),
  };
}

function worst({ offMinor, quotedMinor, offGrams, quotedGrams }: QuoteMiss): number {
  const share = (off: number, mean: number): number => (mean > 0 ? Math.abs(off) / mean : 0);
  return Math.max(share(offMinor, quotedMinor?.mean ?? 0), share(offGrams, quotedGrams.mean));
}
