/** Where the nodes and streams of a flow lie. The package for flows brings 7 kB, more than the scripts of a window may grow by. */
import type { FlowNode, FlowPlot } from '../plot.ts';
import type { Paint } from './paint.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';

/** Width of a node, its least height, height of a line of its words, and distance of two nodes; in CSS pixels. */
export const NODE = 18;
export const LEAST = 3;
export const LINE = 19;
const APART = 9;
/** Height of a line of the heading, room below, distance of words from their node, and room for those at the right edge. */
export const HEAD = 26;
const FOOT = 10;
export const BESIDE = 12;
const [ASIDE, LETTER] = [130, 7.8];
/** What can be pointed at: a node with its words. */
const REACH = 220;

export interface PlacedNode extends FlowNode {
  left: number;
  top: number;
  /** Of its streams; it is drawn at least as tall as can be seen. */
  tall: number;
}
interface Stream {
  paint: Paint;
  from: { x: number; y: number };
  to: { x: number; y: number };
  tall: number;
}

/** Lays a flow out for a width: every node is as tall as its amount on one scale, and has room for its words. */
export function layFlow(plot: FlowPlot, width: number): { nodes: PlacedNode[]; streams: Stream[] } {
  const { nodes, flows, heading, height } = plot;
  const into = (key: string) => flows.filter(({ to }) => to === key);
  const sum = (of: FlowPlot['flows']): number => of.reduce((total, { amount }) => total + amount, 0);
  const amountOf = ({ key }: FlowNode): number => Math.max(sum(into(key)), sum(flows.filter(({ from }) => from === key)));
  const columns = [0, 1, 2].map((column) => nodes.filter((node) => node.column === column));
  const first = heading.length * HEAD + FOOT;
  const scale = scaleFor(columns.map((column) => column.map((node) => ({ ...node, amount: amountOf(node) }))), height - first - FOOT);
  const words = nodes.filter(({ column }) => column === 2).flatMap((node) => node.words);
  const aside = BESIDE + Math.max(ASIDE, ...words.map((line) => line.length * LETTER));
  const left = [0, 0.5, 1].map((part) => part * (width - NODE - aside));

  const placed = new Map<string, PlacedNode>();
  for (const [at, column] of columns.entries()) {
    let slot = first;
    for (const node of column) {
      const tall = amountOf(node) * scale;
      const room = roomOf(node, tall);
      // What joins several streams stands at their middle.
      const sources = into(node.key).flatMap(({ from }) => placed.get(from) ?? []);
      const joined = column.length === 1 && sources.length > 0;
      const top = joined ? middleOf(sources) - tall / 2 : slot + (room - tall) / 2;
      placed.set(node.key, { ...node, left: left[at] ?? 0, top, tall });
      slot += room + APART;
    }
  }
  const used = { from: new Map<string, number>(), to: new Map<string, number>() };
  const next = (side: 'from' | 'to', { key, top }: PlacedNode, tall: number): number => {
    const before = used[side].get(key) ?? 0;
    used[side].set(key, before + tall);
    return top + before;
  };
  const streams = flows.flatMap(({ from, to, amount, paint }): Stream[] => {
    const [source, target] = [placed.get(from), placed.get(to)];
    if (!source || !target) return [];
    const tall = amount * scale;
    return [{ paint, tall, from: { x: source.left + NODE, y: next('from', source, tall) }, to: { x: target.left, y: next('to', target, tall) } }];
  });
  return { nodes: [...placed.values()], streams };
} // prettier-ignore

const roomOf = ({ words }: Pick<FlowNode, 'words'>, tall: number): number =>
  Math.max(tall, LEAST, words.length * LINE);

function middleOf(nodes: readonly PlacedNode[]): number {
  const top = Math.min(...nodes.map((node) => node.top));
  return (top + Math.max(...nodes.map((node) => node.top + node.tall))) / 2;
}

/** Pixels of one unit, so that the fullest column fits with the room for its words. */
function scaleFor(columns: readonly (readonly (Pick<FlowNode, 'words'> & { amount: number })[])[], height: number): number {
  const most = Math.max(...columns.map((nodes) => nodes.reduce((total, { amount }) => total + amount, 0)));
  if (!(most > 0)) return 0;
  let scale = height / most;
  const tallest = (): number =>
    Math.max(...columns.map((nodes) => nodes.reduce((total, node) => total + roomOf(node, node.amount * scale) + APART, -APART)));
  while (tallest() > height && scale * most > LEAST) scale *= 0.98;
  return scale;
} // prettier-ignore

/** The nodes with words, and what is beside them. */
export function markNodes(plot: FlowPlot, width: number) {
  return layFlow(plot, width).nodes.flatMap(({ words, link, left, top, tall }) => {
    const height = Math.max(words.length * LINE, tall);
    const [name = '', ...more] = words;
    const label = common.named({ name, text: more.join(', ') });
    return words.length === 0
      ? []
      : [{ label, link, left, top: top + (tall - height) / 2, width: Math.min(REACH, width - left), height }];
  });
}
