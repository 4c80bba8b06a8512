import type { CheckReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { drawQuotes } from './quotes-drawing.ts';
import type { ChartStory } from '../story.ts';

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
    table: {
      head: [text.ticket, text.quote, text.species, text.quoted, text.cameOut, text.told, text.hung],
      rows: quotes.map((one) => [
        one.ticket,
        one.quote,
        one.speciesName,
        format.massRange(one.quotedGrams.low, one.quotedGrams.high),
        format.mass(one.takeHomeGrams, 0),
        format.mass(one.quotedWeightGrams, 0),
        format.mass(one.hangingGrams, 0),
      ]),
      links: quotes.map(({ ticket }) => `/table/${ticket}`),
      plainHead: [
        ...[text.ticket, text.quote, text.species],
        ...['low', 'mean', 'high'].map((end) => `${text.quoted}, ${end}, g`),
        ...[text.cameOut, text.told, text.hung].map((head) => `${head}, g`),
      ],
      plain: quotes.map(
        ({ ticket, quote, speciesName, quotedGrams, takeHomeGrams, quotedWeightGrams, hangingGrams }) => [
          ...[ticket, quote, speciesName],
          ...[
            quotedGrams.low,
            quotedGrams.mean,
            quotedGrams.high,
            takeHomeGrams,
            quotedWeightGrams,
            hangingGrams,
          ],
        ],
      ),
    },
    fileName: `quotes-${season}`,
    height: 90 + 24 * drawn.length,
    draw: drawn.length === 0 ? null : (colors) => drawQuotes(drawn, colors, format),
    linkOf: (_, index) => (drawn[index] ? `/table/${drawn[index].ticket}` : null),
  };
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
