import type { ChartConfiguration } from 'chart.js';
import type { ChartColors } from './colors.ts';
import type { Plot } from '../plot.ts';
import { configOf } from './config.ts';
import { flowConfig } from './draw-flow.ts';
import { markNodes } from './flow.ts';
import { placeMarks, type PlacedMark } from './marks.ts';
import { Chart } from './register.ts';

interface Sheet {
  /** In CSS pixels; without it the plot follows the size of the element around it. */
  width?: number;
  /** Pixels of the canvas for one of CSS. */
  ratio?: number;
  /** Called whenever the marks have moved. */
  onPlaced?: (marks: PlacedMark[]) => void;
}

/** Draws a plot on a canvas; the chart is destroyed by whoever asked for it. */
export function drawPlot(
  canvas: HTMLCanvasElement,
  plot: Plot,
  colors: ChartColors,
  { width, ratio, onPlaced }: Sheet,
): Chart {
  const isFlow = 'flows' in plot;
  const { plugins, ...rest } = (
    isFlow ? flowConfig(plot, colors) : configOf(plot, colors)
  ) as ChartConfiguration;
  const chart = new Chart(canvas, {
    ...rest,
    options: {
      ...rest.options,
      responsive: width === undefined,
      ...(ratio === undefined ? {} : { devicePixelRatio: ratio }),
    },
    plugins: [
      ...(plugins ?? []),
      {
        id: 'placed',
        afterUpdate: (drawn) =>
          onPlaced?.(isFlow ? markNodes(plot, drawn.width) : placeMarks(drawn, plot.marks ?? [])),
      },
    ],
  });
  if (width !== undefined) chart.resize(width, plot.height);
  return chart;
}
