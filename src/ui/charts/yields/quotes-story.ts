import type { CheckReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { drawQuotes } from './quotes-drawing.ts';
import type { ChartStory } from '../story.ts';
import { column, ranged, tableOf } from '../table.ts';

/** More rows in one picture are indistinguishable. */
const MAX_DRAWN = 40;

/** The shop's quotes, each compared with its animal. */
export function quotesStory({ season, quotes, all }: CheckReport, format: Format): ChartStory {
  const drawn = quotes.slice(-MAX_DRAWN);
  return {
    title: text.quotesTitle,
    finding: quotesFinding(all, format),
    n: text.nQuotes({ n: all.n }),
    notes: [
      text.quotesKey,
      ...(drawn.length < all.n ? [text.drawnNewest({ drawn: drawn.length, of: all.n })] : []),
      ...(quotes.length < all.n ? [text.listed({ listed: quotes.length, of: all.n })] : []),
    ],
    sources: [],
    table: tableOf(
      quotes,
      [
        column(text.ticket, ({ ticket }) => ticket),
        column(text.quote, ({ quote }) => quote),
        column(text.species, ({ speciesName }) => speciesName),
        ranged(text.quoted, ({ quotedGrams: { low, high } }) => format.massRange(low, high), [
          [`${text.quoted}, low, g`, ({ quotedGrams }) => quotedGrams.low],
          [`${text.quoted}, mean, g`, ({ quotedGrams }) => quotedGrams.mean],
          [`${text.quoted}, high, g`, ({ quotedGrams }) => quotedGrams.high],
        ]),
        column(text.cameOut, ({ takeHomeGrams }) => format.mass(takeHomeGrams, 0), ({ takeHomeGrams }) => takeHomeGrams, `${text.cameOut}, g`),
        column(text.told, ({ quotedWeightGrams }) => format.mass(quotedWeightGrams, 0), ({ quotedWeightGrams }) => quotedWeightGrams, `${text.told}, g`),
        column(text.hung, ({ hangingGrams }) => format.mass(hangingGrams, 0), ({ hangingGrams }) => hangingGrams, `${text.hung}, g`),
      ],
      ({ ticket }) => `/table/${ticket}`,
    ),
    fileName: `quotes-${season}`,
    plots: drawn.length === 0 ? [] : [drawQuotes(drawn, format)],
  }; // prettier-ignore
}

/** Observed and expected number of correct quotes, their bias, and misses due to a wrong weight. */
function quotesFinding({ n, held, honest, bias, wrongWeight }: CheckReport['all'], format: Format): string {
  if (bias === null) return text.noQuotes;
  return [
    text.quotesHeld({ inside: held, n, normal: [...new Set([honest.low, honest.high])].join('–') }),
    Math.abs(bias) < 0.005
      ? text.quotesExact
      : text.quotesBias({ share: format.share(Math.abs(bias), 0), less: bias < 0 }),
    ...(held < n ? [text.quotesTold({ wrong: wrongWeight, missed: n - held })] : []),
  ].join(' ');
}
