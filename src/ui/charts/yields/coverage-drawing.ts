import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { biasWords, isHonest, type Cover } from './cover.ts';
import { box, diamond, disc, line, type Mark, type Scene } from '../drawing/scene.ts';

const ROW = 52;
const NAMES = 190;
const WORDS = 150;
const FOOT = 48;
const TICKS = [0, 0.2, 0.4, 0.6, 0.8, 1];
/** Nominal coverage of a quote's range. */
const PROMISED = 0.8;

/** A row for each species: the share of correct quotes as a mark, over the band expected for valid ranges. */
export function drawCoverage(
  rows: readonly Cover[],
  format: Format,
  colors: ChartColors,
  width: number,
): Scene {
  const [left, right] = [NAMES, width - WORDS];
  const at = (share: number): number => left + 12 + share * (right - left - 24);
  const bottom = rows.length * ROW;
  const print = { kind: 'text' as const, size: FONT_SIZE };
  const ground: Mark = {
    shapes: [
      ...TICKS.flatMap((share): Mark['shapes'] => [
        { kind: 'path', d: line(at(share), 0, at(share), bottom), stroke: colors.line, strokeWidth: 1 },
        { ...print, x: at(share), y: bottom + 20, anchor: 'middle', fill: colors.muted, text: format.share(share, 0) },
      ]),
      { kind: 'path', d: line(at(PROMISED), 0, at(PROMISED), bottom), stroke: colors.ink, strokeWidth: 2 },
      { ...print, x: (left + right) / 2, y: bottom + 42, anchor: 'middle', fill: colors.muted, text: text.coverAxis },
    ],
  }; // prettier-ignore
  const marks = rows.map((row, i): Mark => {
    const { name, link, n, held, honest } = row;
    const y = i * ROW + ROW / 2;
    const x = at(held / n);
    const [low, high] = [at(honest.low / n), at(honest.high / n)];
    const good = isHonest(row);
    return {
      ...(link ? { link } : {}),
      label: `${name}: ${text.nOfN({ held, n })}, ${biasWords(row, format)}`,
      shapes: [
        { ...print, x: 0, y: y + 5, weight: 600, fill: colors.ink, text: name },
        {
          kind: 'path',
          d: box(low - 2, y - 9, high - low + 4, 18, 9),
          fill: `color-mix(in srgb, ${colors.steel} 40%, ${colors.card})`,
          stroke: colors.steel,
          strokeWidth: 1.5,
        },
        {
          kind: 'path',
          d: good ? disc(x, y, 8) : diamond(x, y, 11),
          fill: good ? colors.spruce : colors.ink,
          stroke: colors.card,
          strokeWidth: 2,
        },
        { ...print, x: right + 14, y: y - 3, weight: 600, fill: colors.ink, text: text.nOfN({ held, n }) },
        { ...print, x: right + 14, y: y + 16, fill: colors.muted, text: biasWords(row, format) },
      ],
    };
  });
  return { width, height: bottom + FOOT, marks: [ground, ...marks] };
}
