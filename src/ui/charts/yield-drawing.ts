import type { SeasonLook } from '../../bridge/contract.ts';
import { seasonText as text } from '../texts/en-season.ts';
import type { Format } from '../texts/format.ts';
import { nameAxis, percentAxis, rowAxis } from './axes.ts';
import type { ChartColours } from './colours.ts';
import { spread } from './spread.ts';

export type Species = SeasonLook['species'][number];

/** Below this many animals the quartiles of a box would be single animals: only the dots are shown. */
export const FEWEST_FOR_A_BOX = 5;

/** The shares of a species in ascending order. */
export function sharesOf(species: Species): number[] {
  return species.points.map((point) => point.share).toSorted((a, b) => a - b);
}

/** A dot for each animal, beside the others of its species. */
function dotsOf(shown: readonly Species[]) {
  return shown.flatMap((species, row) =>
    species.points.map((point, i) => ({ x: point.share, y: row + spread(i) * 0.6, point })),
  );
}

/** The animal behind a dot. */
export function yieldLink(shown: readonly Species[], dataset: number, index: number): string | null {
  const dot = dataset === 0 ? dotsOf(shown)[index] : undefined;
  return dot ? `/table/${dot.point.ticket}` : null;
}

/** From the lowest to the highest of what is drawn, to the next twentieth: shares of 50 % need no axis from zero. */
function span(shown: readonly Species[]): { min: number; max: number } {
  const all = shown.flatMap(({ points, published }) => [
    ...points.map(({ share }) => share),
    ...(published ? [published.low, published.high] : []),
  ]);
  return {
    min: Math.max(0, Math.floor(Math.min(...all) * 20 - 0.5) / 20),
    max: Math.ceil(Math.max(...all) * 20 + 0.5) / 20,
  };
}

/** Boxes and dots of each species over its published band. */
export function drawYield(shown: readonly Species[], colours: ChartColours, format: Format) {
  const dots = dotsOf(shown);
  const band = (species: Species, row: number) =>
    species.published && {
      type: 'box' as const,
      yScaleID: 'rows',
      xMin: species.published.low,
      xMax: species.published.high,
      yMin: row - 0.42,
      yMax: row + 0.42,
      backgroundColor: `color-mix(in srgb, ${colours.fat} 22%, transparent)`,
      borderColor: colours.steel,
      borderDash: [5, 4],
      borderWidth: 1.5,
      drawTime: 'beforeDatasetsDraw' as const,
    };
  return {
    type: 'boxplot' as const,
    data: {
      datasets: [
        {
          type: 'scatter' as const,
          label: text.takeHomeShare,
          data: dots.map(({ x, y }) => ({ x, y })),
          yAxisID: 'rows',
          pointRadius: 5,
          pointHoverRadius: 8,
          backgroundColor: colours.spruce,
          borderColor: colours.card,
          borderWidth: 1,
        },
        {
          type: 'boxplot' as const,
          label: text.middleHalf,
          data: shown.map((species) => (species.points.length < FEWEST_FOR_A_BOX ? [] : sharesOf(species))),
          yAxisID: 'y',
          order: 1,
          itemRadius: 0,
          outlierRadius: 0,
          meanRadius: 0,
          backgroundColor: 'transparent',
          borderColor: colours.ink,
          medianColor: colours.ink,
          borderWidth: 2,
          grouped: false,
          categoryPercentage: 0.6,
        },
      ],
    },
    options: {
      indexAxis: 'y' as const,
      scales: {
        x: { ...percentAxis(colours, text.takeHomeShare), ...span(shown) },
        y: nameAxis(
          colours,
          shown.map((species) => `${species.name} (${species.points.length})`),
        ),
        rows: rowAxis(shown.length),
      },
      plugins: {
        annotation: { annotations: shown.map(band).filter((one) => one !== null) },
        tooltip: {
          filter: (item: { datasetIndex: number }) => item.datasetIndex === 0,
          callbacks: {
            label: (item: { dataIndex: number }) => {
              const dot = dots[item.dataIndex];
              return dot ? `${dot.point.ticket}: ${format.share(dot.point.share)}` : '';
            },
          },
        },
      },
    },
  };
}
