/**
 * The shop's predictions compared with the observed values: quotes, and the prediction for each species through the
 * season.
 */
import type { Quoted } from '../../book/sums/season-check.ts';
import type { SeasonRow } from '../../book/sums/season-rows.ts';
import { binomialBand } from '../../core/stats/binomial-band.ts';
import { readAfterLearning } from '../session/read-after-learning.ts';
import type { Session } from '../session/session.ts';
import { chosenRows, seasonFilter, sumsOf } from '../session/season-filter.ts';
import { runInSlices } from '../session/slices.ts';
import { predictionPaths } from './prediction-paths.ts';
import type { CheckedQuote, CheckReport, QuoteCoverage } from '../contract/contract.ts';
import { LEVEL } from '../learning/yield-knowledge.ts';

/** Maximum length of a readable table. */
const MAX_LISTED = 500;
/** A quoted weight this far from the hanging weight is a poor guess, not a poor quote. Our own choice. */
const FAR_OFF = 0.05;

export const check = readAfterLearning(seasonFilter, async (session, input): Promise<CheckReport> => {
  const filter = sumsOf(session, input);
  // The first request for a season reads all of it, in slices.
  await runInSlices([
    () => session.yields.before(filter.season),
    () => session.yields.summaryOf(filter.season),
    () => session.book.seasonCheck.quoted(filter.season),
    () => session.book.seasonRows(filter.season),
  ]);
  const rows = chosenRows(session, filter);
  const quotes = checkedQuotes(session, filter.season, rows);
  const missed = quotes.filter((one) => !holds(one));
  return {
    season: filter.season,
    quotes: quotes.slice(-MAX_LISTED),
    species: [...Map.groupBy(quotes, ({ code }) => code)]
      .map(([code, of]) => ({ code, name: session.species.of(code).name, ...coverageOf(of) }))
      .sort((a, b) => b.n - a.n || a.name.localeCompare(b.name)),
    all: {
      ...coverageOf(quotes),
      wrongWeight: missed.filter(
        ({ quotedWeightGrams, hangingGrams }) => Math.abs(quotedWeightGrams / hangingGrams - 1) > FAR_OFF,
      ).length,
    },
    paths: predictionPaths(session, filter, rows),
  };
});

/** Quotes of finished animals, in the order of arrival. */
function checkedQuotes(session: Session, season: number, rows: readonly SeasonRow[]): CheckedQuote[] {
  const byId = new Map(rows.map((row) => [row.animal_id, row]));
  const quoted = session.book.seasonCheck
    .quoted(season)
    .filter(({ animal_id: id }) => isWeighed(byId.get(id)))
    .sort((a, b) => a.animal_id - b.animal_id);
  const bought = session.book.seasonCheck.bought(quoted.map(({ animal_id: id }) => id));
  return quoted.flatMap((quote) => {
    const row = byId.get(quote.animal_id);
    return isWeighed(row) ? [checked(session, row, quote, bought.get(quote.animal_id) ?? 0)] : [];
  });
}

/** A finished animal with known base and take-home. */
type Weighed = SeasonRow & { base: number; take_home: number };

function isWeighed(row: SeasonRow | undefined): row is Weighed {
  return row?.finished === 1 && row.base !== null && row.base > 0 && row.take_home !== null;
}

function checked(session: Session, row: Weighed, quote: Quoted, boughtGrams: number): CheckedQuote {
  return {
    ticket: row.ticket,
    quote: quote.quote,
    code: row.species,
    speciesName: session.species.of(row.species).name,
    quotedGrams: { low: quote.low, mean: quote.mean, high: quote.high },
    takeHomeGrams: row.take_home + boughtGrams,
    quotedWeightGrams: quote.quotedWeight,
    hangingGrams: row.base,
  };
}

function holds({ takeHomeGrams, quotedGrams: { low, high } }: CheckedQuote): boolean {
  return low <= takeHomeGrams && takeHomeGrams <= high;
}

function coverageOf(quotes: readonly CheckedQuote[]): QuoteCoverage {
  const off = quotes.map(({ takeHomeGrams, quotedGrams }) => takeHomeGrams / quotedGrams.mean - 1);
  return {
    n: quotes.length,
    held: quotes.filter(holds).length,
    honest: binomialBand(LEVEL, quotes.length),
    bias: off.length === 0 ? null : off.reduce((sum, one) => sum + one, 0) / off.length,
  };
}
