import type { SpeciesFat } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { FOOT, namesAxis, TITLE } from '../engine/axes.ts';
import { uprightLayer } from '../engine/bands.ts';
import type { AxisPlot, Look } from '../plot.ts';

const ROW = 56;
/** Tolerance around the target, as in the count of batches. */
const ON_TARGET = 0.01;
const WEIGHED: Look = { shape: 'circle', size: 7, paint: 'spruce' };
const TESTED: Look = { shape: 'rectRot', size: 10, paint: 'ink' };

/** A row for each species: deviation of the weighed-in fat and of the tests from the targets. */
export function drawMisses(
  shown: readonly SpeciesFat[],
  format: Format,
  linkOf: (species: string) => string,
): AxisPlot {
  const rows = shown.map(({ code, name, animals, misses: { weighedIn, tested } }, at) => ({
    ...{ code, name, animals, weighedIn, tested, at },
    inWords: weighedIn ? text.inPoints({ points: pointsOf(weighedIn.mean, format) }) : '',
    testWords: tested
      ? text.testPoints({ points: pointsOf(tested.mean, format), n: tested.batches })
      : text.noTestPoints,
  }));
  const values = [-ON_TARGET, ON_TARGET, ...rows.flatMap(({ weighedIn, tested }) => [weighedIn?.mean ?? 0, tested?.mean ?? 0])];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const air = (high - low) * 0.06;
  return {
    height: rows.length * ROW + FOOT + TITLE,
    lying: true,
    x: { min: low - air, max: high + air, written: (share) => pointsOf(share, format), title: text.missAxis },
    y: namesAxis(rows.map(({ name, animals }) => `${name} (${animals})`)),
    layers: [
      { kind: 'bars', thick: ROW, bars: rows.map(({ at }) => ({ at, from: -ON_TARGET, to: ON_TARGET, paint: { tone: 'steel', strength: 0.22 } })) },
      uprightLayer(0, [-0.5, rows.length - 0.5], 'ink', 2),
      {
        kind: 'bars',
        thick: 2,
        bars: rows.flatMap(({ at, weighedIn, tested }) =>
          weighedIn && tested ? [{ at, from: weighedIn.mean, to: tested.mean, paint: 'muted' as const }] : [],
        ),
      },
      {
        kind: 'points',
        points: rows.flatMap(({ at, weighedIn, tested }) => [
          ...(tested ? [{ x: tested.mean, y: at, look: TESTED }] : []),
          ...(weighedIn ? [{ x: weighedIn.mean, y: at, look: WEIGHED }] : []),
        ]),
      },
    ],
    words: rows.flatMap(({ at, inWords, testWords }) => [
      { x: high + air, y: at, dx: 14, dy: -9, text: inWords },
      { x: high + air, y: at, dx: 14, dy: 10, text: testWords },
    ]),
    marks: rows.map(({ at, code, name, inWords, testWords }) => ({
      label: [name, inWords, testWords].filter(Boolean).join(', '),
      link: linkOf(code),
      y: [at - 0.5, at + 0.5],
    })),
    room: { right: 26 + 7.6 * Math.max(...rows.flatMap(({ inWords, testWords }) => [inWords.length, testWords.length])) },
  };
} // prettier-ignore

/** A difference of two fats in points with its sign: `+0.4`, `−1.2`. */
export function pointsOf(share: number, format: Format): string {
  const points = format.number(Math.abs(share) * 100, 1);
  if (Number(points.replace(',', '.')) === 0) return points;
  return share < 0 ? `−${points}` : `+${points}`;
}
