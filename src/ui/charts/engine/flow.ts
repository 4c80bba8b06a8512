/** A flow as a chart of the sankey package; the words beside its nodes are ours, because the package has one font for all. */
import type { Chart, ChartConfiguration, ChartType, Plugin } from 'chart.js';
import type { Flow, SankeyNode } from 'chartjs-chart-sankey';
import type { ChartColors } from './colors.ts';
import type { FlowNode, FlowPlot } from '../plot.ts';
import { FONT_SIZE } from './axes.ts';
import type { PlacedMark } from './marks.ts';
import { fillOf } from './paint.ts';

/** Width of a node, room between two for their words, and the least height of a node, in CSS pixels. */
const [NODE, GAP, LEAST] = [16, 40, 3];
/** Distance of words from their node, height of a line, least room for words at the right edge, width of a character, height of a line above. */
const [BESIDE, LINE, ASIDE, LETTER, HEAD] = [12, 19, 130, 7.8, 26];
const FIGURE = 26;
/** What can be pointed at: a node with its words. */
const [REACH, TALL] = [220, 42];

export function flowConfig(plot: FlowPlot, colors: ChartColors): ChartConfiguration<'sankey'> {
  const nodes = new Map(plot.nodes.map((node) => [node.key, node]));
  const nodeFill = (key = '') => fillOf(nodes.get(key)?.paint ?? 'steel', colors);
  const longest = Math.max(0, ...plot.nodes.filter(({ column }) => column === 2).flatMap(({ words }) => words.map((line) => line.length)));
  return {
    type: 'sankey',
    data: {
      datasets: [
        {
          data: plot.flows.map(({ from, to, amount }) => ({ from, to, flow: amount })),
          colorFrom: ({ dataIndex }) => nodeFill(plot.flows[dataIndex]?.from),
          colorTo: ({ dataIndex }) => nodeFill(plot.flows[dataIndex]?.to),
          flowColor: ({ dataIndex }) => fillOf(plot.flows[dataIndex]?.paint ?? 'steel', colors),
          column: Object.fromEntries(plot.nodes.map(({ key, column }) => [key, column])),
          priority: Object.fromEntries(plot.nodes.map(({ key }, i) => [key, i])),
          nodeWidth: NODE,
          nodePadding: GAP,
          nodeMinSize: LEAST,
          borderWidth: 0,
          nodeLabels: { display: false },
        },
      ],
    },
    options: {
      animation: false,
      maintainAspectRatio: false,
      events: [],
      layout: { padding: { top: HEAD * plot.heading.length + 4, right: BESIDE + Math.max(ASIDE, longest * LETTER), bottom: GAP / 2 } },
    },
    plugins: [nodeWords(plot, colors)],
  } as ChartConfiguration<'sankey'>;
}

interface Rect {
  left: number;
  top: number;
  bottom: number;
}

/** Where the nodes lie: at the ends of their streams. */
function rectsOf(chart: Chart): Map<string, Rect> {
  const rects = new Map<string, Rect>();
  const reach = (node: SankeyNode | undefined, left: number, top: number, bottom: number): void => {
    if (!node) return;
    const known = rects.get(node.key);
    rects.set(node.key, {
      left,
      top: Math.min(top, known?.top ?? top),
      bottom: Math.max(bottom, known?.bottom ?? bottom),
    });
  };
  for (const flow of chart.getDatasetMeta(0).data as unknown as (Flow & { from?: SankeyNode; to?: SankeyNode })[]) {
    reach(flow.from, flow.x - NODE, flow.y, flow.y + flow.height);
    reach(flow.to, flow.x2, flow.y2, flow.y2 + flow.height);
  }
  return rects;
} // prettier-ignore

function nodeWords({ nodes, heading }: FlowPlot, colors: ChartColors): Plugin<ChartType> {
  return {
    id: 'words',
    afterDatasetsDraw: (chart) => {
      const { ctx: pen } = chart;
      pen.save();
      pen.textBaseline = 'middle';
      heading.forEach(({ text, size, bold, tone }, i) => {
        pen.fillStyle = colors[tone ?? 'ink'];
        pen.font = `${bold ? 700 : 400} ${size ?? FONT_SIZE}px ${colors.font}`;
        pen.fillText(text, 0, HEAD * (i + 0.5));
      });
      pen.fillStyle = colors.ink;
      const rects = rectsOf(chart);
      for (const node of nodes) {
        const rect = rects.get(node.key);
        if (rect) writeBeside(pen, node, rect, colors.font);
      }
      pen.restore();
    },
  };
}

function writeBeside(
  pen: CanvasRenderingContext2D,
  { words, large }: FlowNode,
  { left, top, bottom }: Rect,
  font: string,
): void {
  const x = left + NODE + BESIDE;
  const first = (top + bottom) / 2 - ((words.length - 1) * LINE) / 2;
  words.forEach((line, i) => {
    const figure = large && i === 1;
    pen.font = `${i === 0 || figure ? 700 : 400} ${figure ? FIGURE : FONT_SIZE}px ${font}`;
    pen.fillText(line, x, first + i * LINE + (large ? (i - 1) * 6 : 0));
  });
}

/** The nodes that open something, with the words beside them. */
export function placeNodes(chart: Chart, { nodes }: FlowPlot): PlacedMark[] {
  const rects = rectsOf(chart);
  return nodes.flatMap((node) => {
    const rect = rects.get(node.key);
    if (!rect || node.words.length === 0) return [];
    const height = Math.max(TALL, rect.bottom - rect.top);
    return [
      {
        label: `${node.words[0]}: ${node.words.slice(1).join(', ')}`,
        link: node.link,
        left: rect.left,
        top: (rect.top + rect.bottom - height) / 2,
        width: REACH + NODE,
        height,
      },
    ];
  });
}
