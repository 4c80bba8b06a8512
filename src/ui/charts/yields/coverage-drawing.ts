import { text as common } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { FOOT, namesAxis, sharesAxis, TITLE } from '../engine/axes.ts';
import { uprightLayer } from '../engine/bands.ts';
import type { AxisPlot } from '../plot.ts';
import { biasWords, isHonest, type Cover } from './cover.ts';

const ROW = 52;
/** Nominal coverage of a quote's range. */
const PROMISED = 0.8;
/** A band of one number still has a width. */
const THIN = 0.004;

/** A row for each species: the share of correct quotes as a mark, over the band expected for valid ranges. */
export function drawCoverage(rows: readonly Cover[], format: Format): AxisPlot {
  return {
    height: rows.length * ROW + FOOT + TITLE,
    lying: true,
    x: { ...sharesAxis(format, text.coverAxis), min: -0.02, max: 1.02, ticks: [0, 0.2, 0.4, 0.6, 0.8, 1] },
    y: namesAxis(rows.map(({ name }) => name)),
    layers: [
      {
        kind: 'bars',
        thick: 18,
        edge: 'steel',
        radius: 9,
        bars: rows.map(({ n, honest: { low, high } }, at) => ({ at, from: low / n - THIN, to: high / n + THIN, paint: { tone: 'steel', strength: 0.4 } })),
      },
      uprightLayer(PROMISED, [-0.5, rows.length - 0.5], 'ink', 2),
      {
        kind: 'points',
        points: rows.map((row, at) => ({
          x: row.held / row.n,
          y: at,
          look: isHonest(row) ? { shape: 'circle', size: 8, paint: 'spruce' } : { shape: 'rectRot', size: 10, paint: 'ink' },
        })),
      },
    ],
    words: rows.flatMap((row, at) => [
      { x: 1.02, y: at, dx: 14, dy: -9, text: text.nOfN({ held: row.held, n: row.n }), bold: true as const },
      { x: 1.02, y: at, dx: 14, dy: 10, text: biasWords(row, format), tone: 'muted' as const },
    ]),
    marks: rows.map((row, at) => ({
      label: common.named({ name: row.name, text: `${text.nOfN({ held: row.held, n: row.n })}, ${biasWords(row, format)}` }),
      link: row.link ?? '',
      y: [at - 0.5, at + 0.5],
    })),
    room: { right: 26 + 7.6 * Math.max(...rows.map((row) => biasWords(row, format).length)) },
  };
} // prettier-ignore
