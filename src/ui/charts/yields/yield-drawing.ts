import type { SpeciesYield } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/yields.ts';
import type { Format } from '../../texts/format.ts';
import { nameAxis, percentAxis, rowAxis } from '../drawing/axes.ts';
import type { RowSpread } from '../library/box-plot.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { whiskersOf } from './whiskers.ts';

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Position of the `index`-th of several marks across its row, from −0.5 to 0.5: multiples of the golden section,
 * which spread marks evenly and deterministically, so a saved picture never changes.
 * @example spread(0) // 0
 */
export function spread(index: number): number {
  return ((index * GOLDEN + 0.5) % 1) - 0.5;
}

/** A point for each animal, spread across the row of its species; an odd one lies on its middle. */
export function dotsOf(shown: readonly SpeciesYield[]) {
  return shown.flatMap((species, row) => {
    const odd = new Set(whiskersOf(species)?.odd);
    return species.points.map((point, i) => ({
      x: point.share,
      y: odd.has(point) ? row : row + spread(i) * 0.6,
      point,
      odd: odd.has(point),
    }));
  });
}

/** The range of the drawn values, rounded to the next twentieth: shares near 50 % need no axis from zero. */
function span(shown: readonly SpeciesYield[]): { min: number; max: number } {
  const all = shown.flatMap(({ points, published }) => [
    ...points.map(({ share }) => share),
    ...(published ? [published.low, published.high] : []),
  ]);
  return {
    min: Math.max(0, Math.floor(Math.min(...all) * 20 - 0.5) / 20),
    max: Math.ceil(Math.max(...all) * 20 + 0.5) / 20,
  };
}

/** The box of a species with enough animals. */
function boxOf(species: SpeciesYield, row: number): RowSpread {
  const whiskers = whiskersOf(species);
  if (!species.spread || !whiskers) return { x: null, y: row };
  const { q1, median, q3 } = species.spread;
  return { x: median, y: row, min: whiskers.low, q1, q3, max: whiskers.high };
}

/** Boxes and points of each species over its published band. */
export function drawYield(shown: readonly SpeciesYield[], colors: ChartColors, format: Format) {
  const dots = dotsOf(shown);
  const band = (species: SpeciesYield, row: number) =>
    species.published && {
      type: 'box' as const,
      yScaleID: 'rows',
      xMin: species.published.low,
      xMax: species.published.high,
      yMin: row - 0.42,
      yMax: row + 0.42,
      backgroundColor: `color-mix(in srgb, ${colors.steel} 30%, transparent)`,
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
          pointRadius: dots.map(({ odd }) => (odd ? 6.5 : 4.5)),
          pointStyle: dots.map(({ odd }) => (odd ? ('rectRot' as const) : ('circle' as const))),
          pointHoverRadius: 8,
          backgroundColor: dots.map(({ odd }) =>
            odd ? colors.ink : `color-mix(in srgb, ${colors.spruce} 50%, transparent)`,
          ),
          borderColor: colors.card,
          borderWidth: 1,
          order: 2,
        },
        {
          type: 'boxplot' as const,
          label: text.middleHalf,
          data: shown.map(boxOf),
          yAxisID: 'rows',
          order: 1,
          borderColor: colors.ink,
          borderWidth: 2,
        },
      ],
    },
    options: {
      indexAxis: 'y' as const,
      scales: {
        x: { ...percentAxis(colors, text.takeHomeShare), ...span(shown) },
        y: nameAxis(
          colors,
          shown.map(({ name, spread: of }) => text.kindN({ name, n: of?.n ?? 0 })),
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
