import type { CheckedQuote } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { nameAxis, percentAxis, rowAxis } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';

/** A row for each quote: its range as a line around 100 %, and the observed value. */
export function drawQuotes(drawn: readonly CheckedQuote[], colors: ChartColors, format: Format) {
  const at = ({ quotedGrams }: CheckedQuote, grams: number) => grams / quotedGrams.mean;
  const marks = (which: (one: CheckedQuote) => string | number) => drawn.map(which);
  return {
    type: 'scatterWithErrorBars' as const,
    data: {
      datasets: [
        {
          type: 'scatterWithErrorBars' as const,
          label: text.quoted,
          yAxisID: 'rows',
          data: drawn.map((one, row) => ({
            x: 1,
            xMin: at(one, one.quotedGrams.low),
            xMax: at(one, one.quotedGrams.high),
            y: row,
          })),
          radius: 0,
          hoverRadius: 0,
          order: 1,
          errorBarColor: colors.steel,
          errorBarLineWidth: 4,
          errorBarWhiskerLineWidth: 2,
          errorBarWhiskerSize: 10,
        },
        {
          type: 'scatter' as const,
          label: text.cameOut,
          yAxisID: 'rows',
          data: drawn.map((one, row) => ({ x: at(one, one.takeHomeGrams), y: row })),
          pointStyle: marks((one) => (holds(one) ? 'circle' : 'rectRot')) as string[],
          pointRadius: marks((one) => (holds(one) ? 6 : 9)) as number[],
          pointHoverRadius: 10,
          pointBackgroundColor: marks((one) => (holds(one) ? colors.spruce : colors.ink)) as string[],
          pointBorderColor: colors.card,
        },
      ],
    },
    options: {
      indexAxis: 'y' as const,
      scales: {
        x: percentAxis(colors, text.ofMostLikely),
        y: nameAxis(
          colors,
          drawn.map(({ ticket, speciesName }) => `${ticket} ${speciesName}`),
        ),
        rows: rowAxis(drawn.length),
      },
      plugins: {
        tooltip: {
          callbacks: {
            label: (item: { dataIndex: number }) => {
              const one = drawn[item.dataIndex];
              if (!one) return '';
              const { low, high } = one.quotedGrams;
              return text.quoteLine({
                ticket: one.ticket,
                mass: format.mass(one.takeHomeGrams, 0),
                range: format.massRange(low, high),
              });
            },
          },
        },
      },
    },
  };
}

/** Whether the take-home lies within the quoted range. */
function holds({ takeHomeGrams, quotedGrams: { low, high } }: CheckedQuote): boolean {
  return low <= takeHomeGrams && takeHomeGrams <= high;
}
