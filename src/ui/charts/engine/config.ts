import type { ChartConfiguration, ChartDataset, LegendItem } from 'chart.js';
import type { ChartColors } from './colors.ts';
import { FONT_SIZE } from './axes.ts';
import type { AxisPlot, Key, Layer, Look } from '../plot.ts';
import { fillOf } from './paint.ts';
import { scaleOf } from './scales.ts';
import { wordsPlugin } from './words.ts';

type Dataset = ChartDataset<'bar' | 'line', unknown[]>;

/**
 * The configuration of the chart library for a plot. Boxes, whiskers, ranges and bands are its floating bars, limits its lines:
 * the packages for them bring 12 to 15 kB each, for which the window has no room. Never animated, because printing does not wait.
 */
export function configOf(plot: AxisPlot, colors: ChartColors): ChartConfiguration<'bar' | 'line', unknown[]> {
  const { x, y, lying = false, layers, key = [], words = [], room } = plot;
  return {
    type: 'line',
    data: { datasets: layers.map((layer, i) => datasetOf(layer, lying, layers.length - i, colors)) },
    options: {
      animation: false,
      maintainAspectRatio: false,
      // Marks that lie over the canvas are pointed at, not the canvas.
      events: [],
      layout: { padding: room ?? {} },
      scales: { x: scaleOf(x, 'x', colors), y: scaleOf(y, 'y', colors) },
      plugins: {
        legend: {
          display: key.length > 0,
          align: 'start',
          labels: {
            usePointStyle: true,
            boxHeight: 10,
            padding: 16,
            font: { size: FONT_SIZE, family: colors.font },
            generateLabels: () => key.map((one) => keyOf(one, colors)),
          },
        },
      },
    },
    plugins: [wordsPlugin(words, colors)],
  };
}

function keyOf({ text, look }: Key, colors: ChartColors): LegendItem {
  const point = isLook(look) ? look : null;
  return {
    text,
    fontColor: colors.ink,
    fillStyle: fillOf(isLook(look) ? look.paint : look, colors),
    strokeStyle: point?.edge ? colors[point.edge] : colors.steel,
    lineWidth: point ? 2 : 1,
    pointStyle: point ? styleOf(point) : 'rectRounded',
  };
}

function isLook(look: Key['look']): look is Look {
  return typeof look === 'object' && 'shape' in look;
}

const styleOf = ({ shape }: Look) => (shape === 'dash' || shape === 'bar' ? ('line' as const) : shape);

/** A layer as a data set; those of a lower order are drawn over the others. */
function datasetOf(layer: Layer, lying: boolean, order: number, colors: ChartColors): Dataset {
  switch (layer.kind) {
    case 'bars':
      return barsOf(layer, lying, order, colors);
    case 'points':
      return pointsOf(layer, order, colors);
    case 'line':
      return lineOf(layer, order, colors);
  }
}

function barsOf(
  { bars, thick, edge, radius = 0 }: Extract<Layer, { kind: 'bars' }>,
  lying: boolean,
  order: number,
  colors: ChartColors,
): Dataset {
  return {
    type: 'bar',
    order,
    indexAxis: lying ? 'y' : 'x',
    data: bars.map(({ at, from, to }) => (lying ? { y: at, x: [from, to] } : { x: at, y: [from, to] })),
    // Each over the others, at its own place.
    grouped: false,
    categoryPercentage: 1,
    barPercentage: thick === undefined ? 0.78 : 1,
    maxBarThickness: thick ?? 40,
    backgroundColor: bars.map(({ paint }) => fillOf(paint, colors)),
    borderColor: edge ? colors[edge] : 'transparent',
    borderWidth: edge ? 1.5 : 0,
    borderRadius: radius,
    borderSkipped: false,
    inflateAmount: 0,
  };
}

function pointsOf(
  { points }: Extract<Layer, { kind: 'points' }>,
  order: number,
  colors: ChartColors,
): Dataset {
  return {
    type: 'line',
    order,
    indexAxis: 'x',
    data: points.map(({ x, y }) => ({ x, y })),
    showLine: false,
    clip: false,
    pointStyle: points.map(({ look }) => styleOf(look)),
    pointRotation: points.map(({ look }) => (look.shape === 'bar' ? 90 : 0)),
    pointRadius: points.map(({ look }) => look.size),
    pointBackgroundColor: points.map(({ look }) => fillOf(look.paint, colors)),
    pointBorderColor: points.map(({ look }) => colors[look.edge ?? 'card']),
    pointBorderWidth: points.map(({ look }) => (look.edge ? 2 : 1)),
  };
}

function lineOf(
  { points, ink, width, dash = [], fill }: Extract<Layer, { kind: 'line' }>,
  order: number,
  colors: ChartColors,
): Dataset {
  return {
    type: 'line',
    order,
    indexAxis: 'x',
    data: points.map((point) => point ?? { x: NaN, y: NaN }),
    borderColor: colors[ink],
    borderWidth: width,
    borderDash: [...dash],
    pointRadius: 0,
    fill: fill ? { target: fill.to === 'zero' ? 'origin' : '-1', above: fillOf(fill.paint, colors) as string, below: fillOf(fill.paint, colors) as string } : false, // prettier-ignore
  };
}
