/**
 * The shop's predictions compared with the observed values: quotes, and the prediction for each species through the
 * season.
 */
import { binomialBand } from '../../core/stats/binomial-band.ts';
import { readAfterLearning } from '../session/read-after-learning.ts';
import { chosenRows, seasonFilter, sumsOf } from '../session/season-filter.ts';
import { runInSlices } from '../session/slices.ts';
import { held, keptQuotes } from '../quotes/kept-quotes.ts';
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
  const quotes = keptQuotes(session, filter.season, rows);
  const missed = quotes.filter((one) => !held(one));
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

function coverageOf(quotes: readonly CheckedQuote[]): QuoteCoverage {
  const off = quotes.map(({ takeHomeGrams, quotedGrams }) => takeHomeGrams / quotedGrams.mean - 1);
  return {
    n: quotes.length,
    held: quotes.filter(held).length,
    honest: binomialBand(LEVEL, quotes.length),
    bias: off.length === 0 ? null : off.reduce((sum, one) => sum + one, 0) / off.length,
  };
}
