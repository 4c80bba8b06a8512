import type { PoundsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { painted } from '../drawing/part-paint.ts';
import { box, type Mark, type Scene } from '../drawing/scene.ts';
import type { SceneStory } from '../story.ts';

type Made = PoundsReport['made'][number];

const ROW = 62;
const NAMES = 200;
/** Room for the words below a bar that is short. */
const LEAST = 3;

/** What the smokehouse made: of each product what went in, what was packed, and what was lost in heat. Null where nothing was made. */
export function madeStory(view: PoundsReport, format: Format): SceneStory | null {
  const { made } = view;
  if (made.length === 0) return null;
  const columns = [
    text.product, text.madeBatches, text.meatIn, text.addedIn, text.madePacked, text.heatLost, text.stufferLost,
  ]; // prettier-ignore
  const masses = (one: Made): number[] => [
    one.blockGrams, one.addedGrams, one.packedGrams, one.heatGrams, one.leftGrams,
  ]; // prettier-ignore
  return {
    title: text.madeTitle,
    finding: finding(made, format),
    n: text.madeN({ batches: made.reduce((sum, { batches }) => sum + batches, 0) }),
    notes: [text.madeKey],
    sources: [],
    table: {
      head: columns,
      rows: made.map((one) => [
        one.product,
        format.number(one.batches),
        ...masses(one).map((grams) => format.mass(grams, 1)),
      ]),
      plainHead: columns.map((name, i) => (i < 2 ? name : `${name}, g`)),
      plain: made.map((one) => [one.product, one.batches, ...masses(one)]),
    },
    fileName: `made-${view.season}`,
    scene: (colors, width) => draw(made, format, colors, width),
  };
}

const inOf = ({ blockGrams, addedGrams }: Made): number => blockGrams + addedGrams;

function finding(made: readonly Made[], format: Format): string {
  const sum = (of: (one: Made) => number): number => made.reduce((total, one) => total + of(one), 0);
  const heat = sum(({ heatGrams }) => heatGrams);
  return text.madeFinding({
    meat: format.mass(sum(({ blockGrams }) => blockGrams), 0),
    added: format.mass(sum(({ addedGrams }) => addedGrams), 0),
    packed: format.mass(sum(({ packedGrams }) => packedGrams), 0),
    heat: heat > 0 ? format.mass(heat, 0) : null,
    share: format.share(heat / sum(inOf)),
  });
} // prettier-ignore

/** A bar for each product, as long as what went into it: packed, lost in heat, left in mixer and stuffer. */
function draw(made: readonly Made[], format: Format, colors: ChartColors, width: number): Scene {
  const longest = made.reduce((most, one) => Math.max(most, inOf(one)), 0);
  const marks = made.map((one, i): Mark => {
    const y = i * ROW;
    const scale = (width - NAMES) / longest;
    const [packed, heat, left] = [one.packedGrams, one.heatGrams, one.leftGrams].map(
      (grams) => Math.max(0, grams) * scale,
    ) as [number, number, number];
    const words = text.madeLine({
      packed: format.mass(one.packedGrams, 0),
      whole: format.mass(inOf(one), 0),
      added: format.mass(one.addedGrams, 0),
      heat: one.heatGrams > 0 ? format.share(one.heatGrams / inOf(one)) : null,
    });
    return {
      label: `${one.product}: ${words}`,
      shapes: [
        { kind: 'text', x: 0, y: y + 26, text: one.product, size: 15, weight: 600, fill: colors.ink },
        { kind: 'path', d: box(NAMES, y + 8, Math.max(LEAST, packed), 26, 3), fill: colors.spruce },
        ...(heat > 0 ? [painted('smokehouse', box(NAMES + packed, y + 8, heat, 26, 2), colors)] : []),
        ...(left > 0 ? [painted('grinder', box(NAMES + packed + heat, y + 8, left, 26, 2), colors)] : []),
        { kind: 'text', x: NAMES, y: y + 52, text: words, size: FONT_SIZE, fill: colors.ink },
      ],
    };
  });
  return { width, height: made.length * ROW + 4, marks };
}
