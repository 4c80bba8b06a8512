/** The one definition of a quote that held: what its finished animal came to, packed, is within the quoted range. */
import type { Quoted } from '../../book/sums/season-check.ts';
import type { SeasonRow } from '../../book/sums/season-rows.ts';
import type { CheckedQuote, Range } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';

/** Quotes of finished animals among these rows of a season, in the order of arrival. */
export function keptQuotes(session: Session, season: number, rows: readonly SeasonRow[]): CheckedQuote[] {
  const byId = new Map(rows.map((row) => [row.animal_id, row]));
  const quoted = session.book.seasonCheck
    .quoted(season)
    .filter(({ animal_id: id }) => isWeighed(byId.get(id)))
    .sort((a, b) => a.animal_id - b.animal_id);
  const ids = quoted.map(({ animal_id: id }) => id);
  const besides = addedBesides(session, ids);
  return quoted.flatMap((quote) => {
    const row = byId.get(quote.animal_id);
    return isWeighed(row) ? [checked(session, row, quote, besides(quote.animal_id))] : [];
  });
}

/** What goes home of each of these animals besides its own meat, in grams: bought fat, and what recipes added less what cooks lost. */
export function addedBesides(
  { book }: Pick<Session, 'book'>,
  ids: readonly number[],
): (id: number) => number {
  const bought = book.seasonCheck.bought(ids);
  const change = book.seasonCheck.madeChange(ids);
  return (id) => (bought.get(id) ?? 0) + (change.get(id) ?? 0);
}

/** Whether what came out is within what was quoted. */
export function held({ takeHomeGrams, quotedGrams }: CheckedQuote): boolean {
  return outside(takeHomeGrams, quotedGrams) === 0;
}

/**
 * Signed distance of a value from a range: negative below, 0 within. `outside(12, { low: 5, mean: 8, high: 10 })`
 * is 2.
 */
export function outside(value: number, { low, high }: Range): number {
  if (value < low) return value - low;
  return value > high ? value - high : 0;
}

/** A finished animal with known base and take-home. */
type Weighed = SeasonRow & { base: number; take_home: number };

function isWeighed(row: SeasonRow | undefined): row is Weighed {
  return row?.finished === 1 && row.base !== null && row.base > 0 && row.take_home !== null;
}

function checked(session: Session, row: Weighed, quote: Quoted, besidesGrams: number): CheckedQuote {
  return {
    ticket: row.ticket,
    quote: quote.quote,
    code: row.species,
    speciesName: session.species.of(row.species).name,
    quotedGrams: { low: quote.low, mean: quote.mean, high: quote.high },
    takeHomeGrams: row.take_home + besidesGrams,
    quotedWeightGrams: quote.quotedWeight,
    hangingGrams: row.base,
  };
}
