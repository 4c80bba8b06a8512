import type { FlowReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/flow.ts';
import type { Format } from '../../texts/format.ts';
import { FOOT, namesAxis, TITLE } from '../engine/axes.ts';
import { boxLayers } from '../engine/boxes.ts';
import type { AxisPlot } from '../plot.ts';
import { FEW, type ChartStory } from '../story.ts';
import { column, ranged, tableOf } from '../table.ts';

const ROW = 46;

type Kind = FlowReport['waitOf'][number];

/** Waiting time by species. `linkOf` links to the animals of a species. */
export function waitSpeciesStory(
  view: FlowReport,
  format: Format,
  linkOf: (species: string) => string,
): ChartStory {
  const { waitOf: kinds } = view;
  const count = kinds.reduce((total, { spread }) => total + spread.n, 0);
  const days = (value: number): string => format.number(value, Number.isInteger(value) ? 0 : 1);
  return {
    title: text.waitOfTitle,
    finding: waitSpeciesFinding(kinds, days),
    n: text.readyN({ n: count }),
    notes: [text.waitOfKey({ fewest: FEW })],
    sources: [],
    table: tableOf(
      kinds,
      [
        column(text.species, ({ name }) => name),
        column(text.waitAnimals, ({ spread }) => String(spread.n), ({ spread }) => spread.n),
        column(text.shortest, ({ spread }) => days(spread.low), ({ spread }) => spread.low),
        ranged(text.middleHalf, ({ spread }) => `${days(spread.q1)}–${days(spread.q3)}`, [['25%', ({ spread }) => spread.q1]]),
        column(text.middle, ({ spread }) => days(spread.median), ({ spread }) => spread.median),
        ranged('', null, [['75%', ({ spread }) => spread.q3]]),
        column(text.longest, ({ spread }) => days(spread.high), ({ spread }) => spread.high),
      ],
      ({ code }) => linkOf(code),
    ),
    fileName: `days-by-species-${view.season}`,
    plots: count < 2 ? [] : [draw(kinds, days, linkOf)],
  }; // prettier-ignore
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
): AxisPlot {
  const rows = kinds.map(({ spread }, at) => ({ at, ...spread }));
  const [boxed, few] = [rows.filter(({ n }) => n >= FEW), rows.filter(({ n }) => n < FEW)];
  return {
    height: kinds.length * ROW + FOOT + TITLE,
    lying: true,
    x: {
      min: 0,
      max: 1.04 * Math.max(1, ...rows.map(({ high }) => high)),
      written: (value) => (Number.isInteger(value) ? days(value) : ''),
      title: text.waitDays,
    },
    y: namesAxis(kinds.map(({ name, spread }) => `${name} (${spread.n})`)),
    layers: [
      { kind: 'bars', thick: 2, bars: few.map(({ at, low, high }) => ({ at, from: low, to: high, paint: 'steel' })) },
      ...boxLayers(boxed, { thick: 22, paint: 'card', median: 'card' }),
      {
        kind: 'points',
        points: rows.map(({ at, median }) => ({
          x: median,
          y: at,
          look: { shape: 'circle', size: 6, paint: 'spruce' },
        })),
      },
    ],
    marks: kinds.map(({ code, name, spread }, at) => ({
      label: text.rowSays({ name, n: spread.n, middle: days(spread.median) }),
      link: linkOf(code),
      y: [at - 0.5, at + 0.5],
    })),
  }; // prettier-ignore
}
