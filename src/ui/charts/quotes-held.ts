import type { SeasonLook } from '../../bridge/contract.ts';
import { seasonText as text } from '../texts/en-season.ts';
import type { Format } from '../texts/format.ts';
import { holds, type Kept } from './kept-quote.ts';
import { drawQuotes } from './quotes-drawing.ts';
import type { ChartStory } from './story.ts';

/** More rows than this in one picture cannot be told apart. */
const MOST_DRAWN = 40;
/** A weight told this far from what hung is a poor guess, not a poor quote. Our own choice. */
const FAR_OFF = 0.05;

/** The shop's own quotes, each against what came of its animal. */
export function quotesStory({ season, quotes }: SeasonLook, format: Format): ChartStory {
  const { kept } = quotes;
  const drawn = kept.slice(-MOST_DRAWN);
  return {
    title: text.quotesTitle,
    finding: quotesFinding(quotes, format),
    n: text.nQuotes(kept.length),
    notes: [
      ...(kept.length > 0 ? [text.quotesBySpecies(bySpecies(kept))] : []),
      text.quotesKey,
      ...(drawn.length < kept.length ? [text.drawnNewest(drawn.length, kept.length)] : []),
    ],
    sources: [],
    table: {
      head: [text.ticket, text.quote, text.species, text.quoted, text.cameOut, text.told, text.hung],
      rows: kept.map((one) => [
        one.ticket,
        one.quote,
        one.speciesName,
        format.massRange(one.quotedGrams.low, one.quotedGrams.high),
        format.mass(one.takeHomeGrams, 0),
        format.mass(one.toldGrams, 0),
        format.mass(one.hungGrams, 0),
      ]),
      links: kept.map(({ ticket }) => `/table/${ticket}`),
      plainHead: [
        ...[text.ticket, text.quote, text.species],
        ...['low', 'mean', 'high'].map((end) => `${text.quoted}, ${end}, g`),
        ...[text.cameOut, text.told, text.hung].map((head) => `${head}, g`),
      ],
      plain: kept.map(({ ticket, quote, speciesName, quotedGrams, takeHomeGrams, toldGrams, hungGrams }) => [
        ...[ticket, quote, speciesName],
        ...[quotedGrams.low, quotedGrams.mean, quotedGrams.high, takeHomeGrams, toldGrams, hungGrams],
      ]),
    },
    fileName: `quotes-${season}`,
    height: 90 + 24 * drawn.length,
    draw: drawn.length === 0 ? null : (colours) => drawQuotes(drawn, colours, format),
    linkOf: (_, index) => (drawn[index] ? `/table/${drawn[index].ticket}` : null),
  };
}

/** How many held against how many should, which way they lean, and how many misses were a weight told wrong. */
export function quotesFinding({ kept, honest }: SeasonLook['quotes'], format: Format): string {
  if (kept.length === 0) return text.noQuotes;
  const missed = kept.filter((one) => !holds(one));
  const bias =
    kept.reduce((sum, { takeHomeGrams, quotedGrams }) => sum + takeHomeGrams / quotedGrams.mean - 1, 0) /
    kept.length;
  const told = missed.filter(({ toldGrams, hungGrams }) => Math.abs(toldGrams / hungGrams - 1) > FAR_OFF);
  return [
    text.quotesHeld(kept.length - missed.length, kept.length, honest.low, honest.high),
    text.quotesBias(format.share(Math.abs(bias), 0), bias < 0),
    ...(missed.length > 0 ? [text.quotesTold(told.length, missed.length)] : []),
  ].join(' ');
}

function bySpecies(kept: readonly Kept[]): string {
  return [...Map.groupBy(kept, ({ speciesName }) => speciesName)]
    .sort(([, a], [, b]) => b.length - a.length)
    .map(([name, of]) => `${name} ${of.filter(holds).length} of ${of.length}`)
    .join(', ');
}
