/** Draws a flow where a chart of the library would draw its data, so that paper, export and theme are the same for both. */
import type { ChartConfiguration, ChartType, Plugin } from 'chart.js';
import type { FlowPlot } from '../plot.ts';
import { FONT_SIZE } from './axes.ts';
import type { ChartColors } from './colors.ts';
import { BESIDE, HEAD, layFlow, LEAST, LINE, NODE, type PlacedNode } from './flow.ts';
import { fillOf } from './paint.ts';

/** Size of a figure to be read from afar, in CSS pixels. */
const FIGURE = 26;

export function flowConfig(plot: FlowPlot, colors: ChartColors): ChartConfiguration<'line', unknown[]> {
  return {
    type: 'line',
    data: { datasets: [] },
    options: {
      animation: false,
      maintainAspectRatio: false,
      events: [],
      scales: { x: { type: 'linear', display: false }, y: { type: 'linear', display: false } },
      plugins: { legend: { display: false } },
    },
    plugins: [flowPlugin(plot, colors)],
  };
}

function flowPlugin(plot: FlowPlot, colors: ChartColors): Plugin<ChartType> {
  return {
    id: 'flow',
    afterDraw: ({ ctx: pen, width }) => {
      const { nodes, streams } = layFlow(plot, width);
      pen.save();
      for (const { paint, from, to, tall } of streams) {
        const middle = (from.x + to.x) / 2;
        pen.fillStyle = fillOf(paint, colors);
        pen.beginPath();
        pen.moveTo(from.x, from.y);
        pen.bezierCurveTo(middle, from.y, middle, to.y, to.x, to.y);
        pen.lineTo(to.x, to.y + tall);
        pen.bezierCurveTo(middle, to.y + tall, middle, from.y + tall, from.x, from.y + tall);
        pen.fill();
      }
      for (const { paint, left, top, tall } of nodes) {
        pen.fillStyle = fillOf(paint, colors);
        pen.fillRect(left, top, NODE, Math.max(LEAST, tall));
      }
      pen.textBaseline = 'middle';
      plot.heading.forEach(({ text, size, bold, tone }, i) => {
        pen.fillStyle = colors[tone ?? 'ink'];
        pen.font = `${bold ? 700 : 400} ${size ?? FONT_SIZE}px ${colors.font}`;
        pen.fillText(text, 0, HEAD * (i + 0.5));
      });
      pen.fillStyle = colors.ink;
      for (const node of nodes) writeBeside(pen, node, colors.font);
      pen.restore();
    },
  };
}

function writeBeside(pen: CanvasRenderingContext2D, node: PlacedNode, font: string): void {
  const { words, large, left, top, tall } = node;
  const first = top + tall / 2 - ((words.length - 1) * LINE) / 2;
  words.forEach((line, i) => {
    const figure = large && i === 1;
    pen.font = `${i === 0 || figure ? 700 : 400} ${figure ? FIGURE : FONT_SIZE}px ${font}`;
    pen.fillText(line, left + NODE + BESIDE, first + i * LINE + (large ? (i - 1) * 6 : 0));
  });
}
