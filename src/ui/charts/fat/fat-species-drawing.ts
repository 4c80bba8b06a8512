import type { SpeciesFat } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { axisOf } from '../drawing/scene-axis.ts';
import { box, diamond, disc, line, type Mark, type Scene } from '../drawing/scene.ts';

const ROW = 56;
const NAMES = 190;
const WORDS = 190;
const FOOT = 48;
/** Tolerance around the target, as in the count of batches. */
const ON_TARGET = 0.01;

/** A row for each species: deviation of the weighed-in fat and of the tests from the targets. */
export function drawMisses(
  shown: readonly SpeciesFat[],
  format: Format,
  linkOf: (species: string) => string,
  colors: ChartColors,
  width: number,
): Scene {
  const [left, right] = [NAMES, width - WORDS];
  const values = shown.flatMap(({ misses }) => [misses.weighedIn?.mean ?? 0, misses.tested?.mean ?? 0]);
  const axis = axisOf([...values, -ON_TARGET, ON_TARGET], left + 8, right - 8, width > 900 ? 8 : 5);
  const bottom = shown.length * ROW;
  const print = { kind: 'text' as const, size: FONT_SIZE };
  const ground: Mark = {
    shapes: [
      {
        kind: 'path',
        d: box(axis.at(-ON_TARGET), 0, axis.at(ON_TARGET) - axis.at(-ON_TARGET), bottom),
        fill: colors.steel,
        opacity: 0.22,
      },
      ...axis.ticks.flatMap((value): Mark['shapes'] => [
        { kind: 'path', d: line(axis.at(value), 0, axis.at(value), bottom), stroke: colors.line, strokeWidth: 1 },
        { ...print, x: axis.at(value), y: bottom + 20, anchor: 'middle', fill: colors.muted, text: pointsOf(value, format) },
      ]),
      { kind: 'path', d: line(axis.at(0), 0, axis.at(0), bottom), stroke: colors.ink, strokeWidth: 2 },
      { ...print, x: (left + right) / 2, y: bottom + 42, anchor: 'middle', fill: colors.muted, text: text.missAxis },
    ],
  }; // prettier-ignore
  const rows = shown.map(({ code, name, animals, misses: { weighedIn, tested } }, i): Mark => {
    const y = i * ROW + ROW / 2;
    const inWords = weighedIn ? text.inPoints({ points: pointsOf(weighedIn.mean, format) }) : '';
    const testWords = tested
      ? text.testPoints({ points: pointsOf(tested.mean, format), n: tested.batches })
      : text.noTestPoints;
    return {
      link: linkOf(code),
      label: [name, inWords, testWords].filter(Boolean).join(', '),
      shapes: [
        { ...print, x: 0, y: y + 5, weight: 600, fill: colors.ink, text: `${name} (${animals})` },
        ...(weighedIn && tested
          ? [{ kind: 'path' as const, d: line(axis.at(weighedIn.mean), y, axis.at(tested.mean), y), stroke: colors.muted, strokeWidth: 2 }]
          : []),
        ...(tested
          ? [{ kind: 'path' as const, d: diamond(axis.at(tested.mean), y, 11), fill: colors.ink, stroke: colors.card, strokeWidth: 2 }]
          : []),
        ...(weighedIn
          ? [{ kind: 'path' as const, d: disc(axis.at(weighedIn.mean), y, 7), fill: colors.spruce, stroke: colors.card, strokeWidth: 2 }]
          : []),
        { ...print, x: right + 14, y: y - 3, fill: colors.ink, text: inWords },
        { ...print, x: right + 14, y: y + 16, fill: colors.ink, text: testWords },
      ],
    }; // prettier-ignore
  });
  return { width, height: bottom + FOOT, marks: [ground, ...rows] };
}

/** A difference of two fats in points with its sign: `+0.4`, `−1.2`. */
export function pointsOf(share: number, format: Format): string {
  const points = format.number(Math.abs(share) * 100, 1);
  if (Number(points.replace(',', '.')) === 0) return points;
  return share < 0 ? `−${points}` : `+${points}`;
}
