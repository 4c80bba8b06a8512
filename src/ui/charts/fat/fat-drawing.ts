import type { FatBatch } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { namesAxis, sharesAxis } from '../engine/axes.ts';
import type { AxisPlot, Look } from '../plot.ts';

/** The four figures of a batch as four shapes. */
const LOOKS = {
  target: { shape: 'dash', size: 14, paint: 'none', edge: 'ink' },
  planned: { shape: 'triangle', size: 11, paint: 'none', edge: 'ink' },
  weighedIn: { shape: 'circle', size: 6, paint: 'spruce' },
  tested: { shape: 'rectRot', size: 8, paint: 'ink' },
} as const satisfies Record<string, Look>;
const MEASURES = Object.keys(LOOKS) as (keyof typeof LOOKS)[];

export function drawFat(batches: readonly FatBatch[], format: Format): AxisPlot {
  const figures = MEASURES.flatMap((measure) =>
    batches.flatMap((batch, x) => {
      const y = batch[measure];
      return y === null ? [] : [{ x, y, measure, batch, look: LOOKS[measure] }];
    }),
  );
  return {
    height: 420,
    x: namesAxis(batches.map(({ name }) => name)),
    y: { ...sharesAxis(format, text.share), min: 0, max: 1.1 * Math.max(0.01, ...figures.map(({ y }) => y)) },
    layers: MEASURES.map((measure) => ({
      kind: 'points' as const,
      points: figures.filter((one) => one.measure === measure),
    })),
    marks: figures
      .toSorted((a, b) => a.x - b.x)
      .map(({ x, y, measure, batch }) => ({
        label: `${batch.name}, ${text[measure]}: ${format.share(y)}`,
        link: `/grinder/${batch.id}`,
        quiet: true,
        x: [x, x],
        y: [y, y],
      })),
    key: MEASURES.map((measure) => ({ text: text[measure], look: LOOKS[measure] })),
  };
}
