import type { FlowReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/flow.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { FEW, type SceneStory } from '../story.ts';
import { axisOf, type SceneAxis } from '../drawing/scene-axis.ts';
import { box, disc, line, type Mark, type Scene, type Shape } from '../drawing/scene.ts';

const ROW = 46;
const NAMES = 200;
const RIGHT = 40;
const SCALE = 34;

type Kind = FlowReport['waitOf'][number];

/** Waiting time by species. `linkOf` links to the animals of a species. */
export function waitSpeciesStory(
  view: FlowReport,
  format: Format,
  linkOf: (species: string) => string,
): SceneStory {
  const { waitOf: kinds } = view;
  const count = kinds.reduce((total, { spread }) => total + spread.n, 0);
  const days = (value: number): string => format.number(value, Number.isInteger(value) ? 0 : 1);
  return {
    title: text.waitOfTitle,
    finding: waitSpeciesFinding(kinds, days),
    n: text.readyN({ n: count }),
    notes: [text.waitOfKey({ fewest: FEW })],
    sources: [],
    table: {
      head: [text.species, text.waitAnimals, text.shortest, text.middleHalf, text.middle, text.longest],
      rows: kinds.map(({ name, spread: { n, low, q1, median, q3, high } }) => [
        ...[name, String(n), days(low)],
        ...[`${days(q1)}–${days(q3)}`, days(median), days(high)],
      ]),
      links: kinds.map(({ code }) => linkOf(code)),
      plainHead: [text.species, text.waitAnimals, text.shortest, '25%', text.middle, '75%', text.longest],
      plain: kinds.map(({ name, spread: { n, low, q1, median, q3, high } }) => [
        name, n, low, q1, median, q3, high,
      ]), // prettier-ignore
    },
    fileName: `days-by-species-${view.season}`,
    scene: count < 2 ? null : (colors, width) => draw(kinds, days, linkOf, colors, width),
  };
}

/** The slowest and the fastest species with enough animals. */
function waitSpeciesFinding(kinds: readonly Kind[], days: (value: number) => string): string {
  const shown = kinds.filter(({ spread }) => spread.n >= FEW);
  const order = (shown.length > 0 ? shown : kinds).toSorted((a, b) => b.spread.median - a.spread.median);
  const [slow, fast] = [order[0], order.at(-1)];
  if (!slow || !fast) return text.noWaits;
  const sentence =
    slow === fast
      ? text.waitOfOne({ name: slow.name, n: days(slow.spread.median) })
      : slow.spread.median === fast.spread.median
        ? text.waitOfAlike({ n: days(slow.spread.median) })
        : text.waitOf({
            slow: slow.name,
            slowDays: days(slow.spread.median),
            fast: fast.name,
            fastDays: days(fast.spread.median),
          });
  return shown.length > 0 ? sentence : `${sentence} ${text.waitsFew}`;
}

function draw(
  kinds: readonly Kind[],
  days: (value: number) => string,
  linkOf: (species: string) => string,
  colors: ChartColors,
  width: number,
): Scene {
  const axis = axisOf([0, ...kinds.map(({ spread }) => spread.high)], NAMES, width - RIGHT, 8);
  const foot = kinds.length * ROW + 4;
  const print = { kind: 'text' as const, size: FONT_SIZE, fill: colors.muted };
  const scale: Mark = {
    shapes: axis.ticks.filter(Number.isInteger).flatMap((tick) => [
      { kind: 'path' as const, d: line(axis.at(tick), 0, axis.at(tick), foot), stroke: colors.line },
      { ...print, x: axis.at(tick), y: foot + 20, text: String(tick), anchor: 'middle' as const },
    ]),
  };
  const rows = kinds.map(({ code, name, spread }, i): Mark => ({
    label: text.rowSays({ name, n: spread.n, middle: days(spread.median) }),
    link: linkOf(code),
    shapes: [
      { ...print, x: 0, y: i * ROW + 28, text: `${name} (${spread.n})`, size: 15, fill: colors.ink },
      ...rowShapes(spread, axis, i * ROW + 23, colors),
    ],
  }));
  return { width, height: foot + SCALE, marks: [scale, ...rows] };
}

function rowShapes(
  { n, low, q1, median, q3, high }: Kind['spread'],
  axis: SceneAxis,
  y: number,
  colors: ChartColors,
): Shape[] {
  const half = { kind: 'path' as const, fill: colors.card, stroke: colors.ink, strokeWidth: 2 };
  return [
    { kind: 'path', d: line(axis.at(low), y, axis.at(high), y), stroke: colors.steel, strokeWidth: 2 },
    ...[low, high].map((end) => ({
      kind: 'path' as const,
      d: line(axis.at(end), y - 6, axis.at(end), y + 6),
      stroke: colors.steel,
      strokeWidth: 2,
    })),
    ...(n >= FEW
      ? [{ ...half, d: box(axis.at(q1), y - 11, Math.max(2, axis.at(q3) - axis.at(q1)), 22, 3) }]
      : []),
    { kind: 'path', d: disc(axis.at(median), y, 6), fill: colors.spruce },
  ];
}
