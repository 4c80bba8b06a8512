import type { SpeciesYield } from '../../../bridge/contract.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/yields.ts';
import type { Format } from '../../texts/format.ts';
import { FOOT, namesAxis, sharesAxis, TITLE } from '../engine/axes.ts';
import { boxLayers } from '../engine/boxes.ts';
import type { AxisPlot, Bar, Look, Mark } from '../plot.ts';
import { whiskersOf } from './whiskers.ts';

const GOLDEN = (Math.sqrt(5) - 1) / 2;
const DOT: Look = { shape: 'circle', size: 4.5, paint: { tone: 'spruce', strength: 0.5 } };
const ODD: Look = { shape: 'rectRot', size: 6.5, paint: 'ink' };

/**
 * Position of the `index`-th of several marks across its row, from −0.5 to 0.5: multiples of the golden section,
 * which spread marks evenly and deterministically, so a saved picture never changes.
 * @example spread(0) // 0
 */
export function spread(index: number): number {
  return ((index * GOLDEN + 0.5) % 1) - 0.5;
}

/** Boxes and points of each species over its published band; an odd point lies on the middle of its row. */
export function drawYield(
  shown: readonly SpeciesYield[],
  format: Format,
  linkOf: (species: string) => string,
): AxisPlot {
  const rows = shown.map((species, at) => ({ ...species, at, whiskers: whiskersOf(species) }));
  const row = rowHeight(shown.length);
  const dots = rows.flatMap(({ at, points, whiskers }) =>
    points.map((point, i) => {
      const odd = whiskers?.odd.includes(point) ?? false;
      return { ...point, y: odd ? at : at + spread(i) * 0.6, look: odd ? ODD : DOT };
    }),
  );
  const boxes = rows.flatMap(({ at, spread: of, whiskers }) =>
    of && whiskers ? [{ ...of, at, low: whiskers.low, high: whiskers.high }] : [],
  );
  return {
    height: shown.length * row + FOOT + TITLE,
    lying: true,
    x: { ...sharesAxis(format, text.takeHomeShare), ...spanOf(shown) },
    y: namesAxis(shown.map(({ name, spread: of }) => text.kindN({ name, n: of?.n ?? 0 }))),
    layers: [
      {
        kind: 'bars',
        thick: row * 0.84,
        bars: rows.flatMap(({ at, published }): Bar[] =>
          published
            ? [{ at, from: published.low, to: published.high, paint: { tone: 'steel', strength: 0.3 } }]
            : [],
        ),
      },
      { kind: 'points', points: dots.map(({ share, y, look }) => ({ x: share, y, look })) },
      ...boxLayers(boxes, { thick: row * 0.54, paint: 'none', median: 'ink' }),
    ],
    marks: rows.flatMap(({ at, code, name, spread: of, whiskers }): Mark[] => [
      ...(of && whiskers
        ? [{ label: common.named({ name: text.kindN({ name, n: of.n }), text: format.share(of.median) }), link: linkOf(code), x: [whiskers.low, whiskers.high] as const, y: [at - 0.3, at + 0.3] as const }] // prettier-ignore
        : []),
      ...dots
        .filter(({ y }) => Math.round(y) === at)
        .toSorted((a, b) => a.share - b.share)
        .map(({ ticket, share, y }): Mark => ({ label: common.named({ name: ticket, text: format.share(share) }), link: `/table/${ticket}`, quiet: true, x: [share, share], y: [y, y] })), // prettier-ignore
    ]),
  };
}

/** Rows become lower the more species there are, so that the picture stays on one screen; a single one has room for its points. */
const rowHeight = (rows: number): number =>
  rows === 1 ? 118 : Math.round(Math.min(64, Math.max(36, 290 / rows)));

/** The range of the drawn values, rounded to the next twentieth: shares near 50 % need no axis from zero. */
function spanOf(shown: readonly SpeciesYield[]): { min: number; max: number } {
  const all = shown.flatMap(({ points, published }) => [
    ...points.map(({ share }) => share),
    ...(published ? [published.low, published.high] : []),
  ]);
  return {
    min: Math.max(0, Math.floor(Math.min(...all) * 20 - 0.5) / 20),
    max: Math.ceil(Math.max(...all) * 20 + 0.5) / 20,
  };
}
