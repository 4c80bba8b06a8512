import type { CheckedQuote } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { FOOT, namesAxis, sharesAxis, TITLE } from '../engine/axes.ts';
import { rangeLayers } from '../engine/boxes.ts';
import type { AxisPlot } from '../plot.ts';

const ROW = 24;

/** A row for each quote: its range as a line around 100 %, and the observed value. */
export function drawQuotes(drawn: readonly CheckedQuote[], format: Format): AxisPlot {
  const rows = drawn.map((quote, at) => {
    const { low, mean, high } = quote.quotedGrams;
    return { quote, at, low: low / mean, high: high / mean, came: quote.takeHomeGrams / mean };
  });
  const ends = rows.flatMap(({ low, high, came }) => [low, high, came]);
  return {
    height: rows.length * ROW + FOOT + TITLE,
    lying: true,
    x: { ...sharesAxis(format, text.ofMostLikely), min: Math.min(...ends) - 0.03, max: Math.max(...ends) + 0.03 },
    y: namesAxis(drawn.map(({ ticket, speciesName }) => `${ticket} ${speciesName}`)),
    layers: [
      ...rangeLayers(rows, 'steel', 4),
      {
        kind: 'points',
        points: rows.map(({ at, low, high, came }) => ({
          x: came,
          y: at,
          look: low <= came && came <= high ? { shape: 'circle', size: 6, paint: 'spruce' } : { shape: 'rectRot', size: 9, paint: 'ink' },
        })),
      },
    ],
    marks: rows.map(({ at, quote: { ticket, takeHomeGrams, quotedGrams } }) => ({
      label: text.quoteLine({
        ticket,
        mass: format.mass(takeHomeGrams, 0),
        range: format.massRange(quotedGrams.low, quotedGrams.high),
      }),
      link: `/table/${ticket}`,
      y: [at - 0.5, at + 0.5],
    })),
  };
} // prettier-ignore
