/** The shop's own predictions against what came: its quotes, and what it expected of each species through the season. */
import type { QuoteCheck } from '../book/season-check.ts';
import { binomialBand } from '../core/binomial-band.ts';
import { read } from './procedure.ts';
import type { DeskRoom } from './room.ts';
import { seasonFilter, sumsOf } from './season-filter.ts';
import { beliefPaths } from './season-paths.ts';
import type { CheckedQuote, CheckLook, QuotesKept } from './shapes.ts';
import { LEVEL } from './yield-knowledge.ts';

/** As many as a table can be read through. */
const MOST_LISTED = 500;
/** A weight told this far from what hung is a poor guess, not a poor quote. Our own choice. */
const FAR_OFF = 0.05;

export const check = read(seasonFilter, (room, input): CheckLook => {
  const filter = sumsOf(room, input);
  const quotes = room.book.seasonCheck.quotes(filter).map((row) => checked(room, row));
  const missed = quotes.filter((one) => !holds(one));
  return {
    season: filter.season,
    quotes: quotes.slice(-MOST_LISTED),
    species: [...Map.groupBy(quotes, ({ code }) => code)]
      .map(([code, of]) => ({ code, name: room.species.of(code).name, ...keptOf(of) }))
      .sort((a, b) => b.n - a.n || a.name.localeCompare(b.name)),
    all: {
      ...keptOf(quotes),
      toldWrong: missed.filter(({ toldGrams, hungGrams }) => Math.abs(toldGrams / hungGrams - 1) > FAR_OFF)
        .length,
    },
    paths: beliefPaths(room, filter),
  };
});

function checked(room: DeskRoom, row: QuoteCheck): CheckedQuote {
  return {
    ticket: row.ticket,
    quote: row.quote,
    code: row.species,
    speciesName: room.species.of(row.species).name,
    quotedGrams: { low: row.low, mean: row.mean, high: row.high },
    takeHomeGrams: row.take_home + row.bought,
    toldGrams: row.told,
    hungGrams: row.base,
  };
}

function holds({ takeHomeGrams, quotedGrams: { low, high } }: CheckedQuote): boolean {
  return low <= takeHomeGrams && takeHomeGrams <= high;
}

function keptOf(quotes: readonly CheckedQuote[]): QuotesKept {
  const off = quotes.map(({ takeHomeGrams, quotedGrams }) => takeHomeGrams / quotedGrams.mean - 1);
  return {
    n: quotes.length,
    held: quotes.filter(holds).length,
    honest: binomialBand(LEVEL, quotes.length),
    bias: off.length === 0 ? null : off.reduce((sum, one) => sum + one, 0) / off.length,
  };
}
