import type { PoundsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { painted, streamed } from '../drawing/part-paint.ts';
import { box, type Mark, ribbon } from '../drawing/scene.ts';

const TALL = 84;
const END = 14;

/**
 * Input and output of the grinder on its own scale: meat, fat and what recipes added on the left; packages, residue and water lost in the
 * smoker on the right.
 */
export function drawGrinder(
  grinder: PoundsReport['grinder'],
  format: Format,
  colors: ChartColors,
  at: { x: number; y: number; width: number },
): Mark[] {
  const { inGrams, fatGrams, addedGrams, outGrams, lossGrams, driedGrams } = grinder;
  const lost = Math.max(0, lossGrams);
  const wholeGrams = inGrams + fatGrams + addedGrams;
  const scale = TALL / Math.max(wholeGrams, outGrams + lost + driedGrams);
  const [meat, fat, added, out] = [inGrams, fatGrams, addedGrams, outGrams].map((grams) => grams * scale) as [number, number, number, number]; // prettier-ignore
  const [top, right] = [at.y + 58, at.x + at.width];
  const fatTop = top + meat + 6;
  const addedTop = fatTop + (fat > 0 ? fat + 6 : 0);
  const middle = at.x + at.width * 0.5;
  const words = { kind: 'text' as const, fill: colors.ink, size: FONT_SIZE };
  const amounts = text.grinderIn({
    meat: format.mass(inGrams, 0),
    fat: fatGrams > 0 ? format.mass(fatGrams, 0) : null,
    added: addedGrams > 0 ? format.mass(addedGrams, 0) : null,
  });
  const share = (grams: number): string => format.share(grams / wholeGrams);
  // Losses below each other, each with room for a line of text.
  let [from, to] = [top + out, top + out + 16];
  const ends = [
    {
      fate: 'grinder' as const,
      grams: lost,
      says: text.grinderLoss({ mass: format.mass(lost, 0), share: share(lost) }),
    },
    {
      fate: 'smokehouse' as const,
      grams: driedGrams,
      says: text.dried({ mass: format.mass(driedGrams, 0), share: share(driedGrams) }),
    },
  ]
    .filter(({ grams }) => grams > 0)
    .map(({ grams, ...end }) => {
      const laid = { ...end, tall: grams * scale, from, to };
      from += laid.tall;
      to += laid.tall + 32;
      return laid;
    });
  return [
    {
      shapes: [
        {
          ...words,
          x: at.x,
          y: at.y + 14,
          text: text.grinder({ batches: grinder.batches }),
          size: 15,
          weight: 700,
        },
        { ...words, x: at.x, y: at.y + 40, text: amounts },
      ],
    },
    {
      label: amounts,
      shapes: [
        painted('trim', box(at.x, top, END, meat, 3), colors),
        streamed('trim', ribbon(at.x + END, top, meat, middle, top, meat), colors),
        ...(fat > 0
          ? [
              painted('fat saved', box(at.x, fatTop, END, Math.max(2, fat), 3), colors),
              streamed('fat saved', ribbon(at.x + END, fatTop, fat, middle, top + meat, fat), colors),
            ]
          : []),
        ...(added > 0
          ? [
              {
                kind: 'path' as const,
                d: box(at.x, addedTop, END, Math.max(2, added), 3),
                fill: colors.muted,
              },
              {
                kind: 'path' as const,
                d: ribbon(at.x + END, addedTop, added, middle, top + meat + fat, added),
                fill: colors.line,
              },
            ]
          : []),
      ],
    },
    {
      label: text.grinderOut({ mass: format.mass(outGrams, 0) }),
      shapes: [
        streamed('trim', ribbon(middle, top, out, right - END, top, out), colors),
        { kind: 'path', d: box(right - END, top, END, out, 3), fill: colors.spruce },
        { ...words, x: right - END - 10, y: top + out / 2 + 5, text: text.grinderOut({ mass: format.mass(outGrams, 0) }), anchor: 'end', weight: 600 }, // prettier-ignore
      ],
    },
    ...ends.map(({ fate, tall, from, to, says }): Mark => ({
      label: says,
      shapes: [
        streamed(fate, ribbon(middle, from, tall, right - END, to, tall), colors),
        painted(fate, box(right - END, to, END, Math.max(3, tall), 2), colors),
        { ...words, x: right, y: to + tall + 20, text: says, anchor: 'end' as const },
      ],
    })),
  ];
}
