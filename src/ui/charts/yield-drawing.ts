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

/** The dots of this season, or of those before it. */
function dots(look: SeasonLook, shown: readonly Species[], now: boolean) {
  return shown.flatMap((species, row) =>
    species.points
      .map((point, i) => ({ x: point.share, y: row + spread(i) * 0.6, point }))
      .filter(({ point }) => (point.season === look.season) === now),
  );
}

/** The animal behind a dot. */
export function yieldLink(
  look: SeasonLook,
  shown: readonly Species[],
  dataset: number,
  index: number,
): string | null {
  if (dataset > 1) return null;
  const dot = dots(look, shown, dataset === 0)[index];
  return dot ? `/table/${dot.point.ticket}` : null;
}

/** Boxes and dots of each species over its published band. */
export function drawYield(
  look: SeasonLook,
  shown: readonly Species[],
  colours: ChartColours,
  format: Format,
) {
  const dot = (now: boolean) => ({
    type: 'scatter' as const,
    label: now ? text.thisSeason : text.earlierSeasons,
    data: dots(look, shown, now).map(({ x, y }) => ({ x, y })),
    yAxisID: 'rows',
    pointStyle: now ? ('circle' as const) : ('triangle' as const),
    pointRadius: now ? 5 : 4,
    pointHoverRadius: 8,
    backgroundColor: now ? colours.spruce : colours.card,
    borderColor: now ? colours.card : colours.steel,
    borderWidth: 1,
  });
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
        dot(true),
        dot(false),
        {
          type: 'boxplot' as const,
          label: text.middleHalf,
          data: shown.map((species) => (species.points.length < FEWEST_FOR_A_BOX ? [] : sharesOf(species))),
          order: 1,
          itemRadius: 0,
          outlierRadius: 0,
          meanRadius: 0,
          backgroundColor: 'transparent',
          borderColor: colours.ink,
          medianColor: colours.ink,
          borderWidth: 2,
          categoryPercentage: 0.6,
        },
      ],
    },
    options: {
      indexAxis: 'y' as const,
      scales: {
        x: percentAxis(colours, text.takeHomeShare),
        y: nameAxis(
          colours,
          shown.map((species) => `${species.name} (${species.points.length})`),
        ),
        rows: rowAxis(shown.length),
      },
      plugins: {
        annotation: { annotations: shown.map(band).filter((one) => one !== null) },
        tooltip: {
          filter: (item: { datasetIndex: number }) => item.datasetIndex < 2,
          callbacks: {
            label: (item: { datasetIndex: number; dataIndex: number }) => {
              const one = dots(look, shown, item.datasetIndex === 0)[item.dataIndex];
              return one ? `${one.point.ticket}: ${format.share(one.point.share)}` : '';
            },
          },
        },
      },
    },
  };
}
