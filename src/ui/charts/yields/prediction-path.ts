import type { PredictionPath, Range } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { bandBefore, isInside, roomFor, type Point } from './prediction-band.ts';
import { drawPath } from './prediction-path-drawing.ts';
import { type ChartStory, FEW } from '../story.ts';
import { column, ranged, tableOf } from '../table.ts';

/** Bands whose ends differ by less than this count as equal: a tenth of a point. */
const SAME = 0.001;

/** How the prediction for one species narrowed during the season, and its animals. */
export function pathStory(
  path: PredictionPath,
  options: { season: number; filtered: boolean },
  format: Format,
): ChartStory {
  const { name, code, earlier, steps, points } = path;
  const [first, last] = [steps[0], steps.at(-1)];
  const n = last?.n ?? 0;
  const beyond = points.filter(({ share }) => !roomFor(steps).holds(share)).length;
  const own = points.map((point) => ({ point, band: bandBefore(steps, point) }));
  return {
    title: text.pathTitle({ species: name }),
    finding: first && last ? finding(first, last, own, format) : text.noBelief,
    n: text.nPath({ n, earlier }),
    notes: [
      text.pathKey,
      ...(options.filtered ? [text.pathFiltered] : []),
      ...(points.length < n && points.length > 0 ? [text.pathSampled({ drawn: points.length })] : []),
      ...(beyond > 0 ? [text.pathBeyond({ n: beyond })] : []),
      ...(n < FEW ? [text.pathFew({ n: FEW })] : []),
    ],
    sources: [],
    table: tableOf(
      own,
      [
        column(text.ticket, ({ point }) => point.ticket),
        column(text.day, ({ point }) => format.day(point.on), ({ point }) => point.on),
        column(text.nth, ({ point }) => String(point.nth), ({ point }) => point.nth),
        column(text.gave, ({ point }) => format.share(point.share), ({ point }) => point.share),
        ranged(text.expected, ({ band }) => format.shareRange(band.low, band.high, 1), [
          [`${text.expected}, low`, ({ band }) => band.low],
          [`${text.expected}, mean`, ({ band }) => band.mean],
          [`${text.expected}, high`, ({ band }) => band.high],
        ]),
      ],
      ({ point }) => `/table/${point.ticket}`,
    ),
    fileName: `expected-${code}-${options.season}`,
    plots: n === 0 ? [] : [drawPath(path, format)],
  }; // prettier-ignore
}

function finding(
  first: Range,
  last: Range,
  own: readonly { point: Point; band: Range }[],
  format: Format,
): string {
  const less = first.high - first.low - (last.high - last.low);
  const points = format.number(Math.abs(less) * 100, 1);
  const inside = own.filter(({ point, band }) => isInside(point, band)).length;
  const range = ({ low, high }: Range) => format.shareRange(low, high, 1);
  const facts = { before: range(first), now: range(last), points };
  return [
    Math.abs(less) < SAME
      ? text.pathSame(facts)
      : less > 0
        ? text.pathNarrower(facts)
        : text.pathWider(facts),
    ...(own.length > 0 ? [text.pathInside({ inside, n: own.length })] : []),
  ].join(' ');
}
