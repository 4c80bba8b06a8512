import type { PoundsReport } from '../../../bridge/contract.ts';
import { fromGrams } from '../../../core/values/units.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { paintOf } from '../engine/part-paint.ts';
import { massAxis } from '../engine/axes.ts';
import { barRows, type BarRow } from '../engine/bar-rows.ts';
import type { ChartStory } from '../story.ts';
import { column, tableOf } from '../table.ts';

type Made = PoundsReport['made'][number];

/** What the smokehouse made: of each product what went in, what was packed, and what was lost in heat. Null where nothing was made. */
export function madeStory(view: PoundsReport, format: Format): ChartStory | null {
  const { made } = view;
  if (made.length === 0) return null;
  const mass = (head: string, of: (one: Made) => number) =>
    column<Made>(head, (one) => format.mass(of(one), 1), of, `${head}, g`);
  return {
    title: text.madeTitle,
    finding: finding(made, format),
    n: text.madeN({ batches: made.reduce((sum, { batches }) => sum + batches, 0) }),
    notes: [text.madeKey],
    sources: [],
    table: tableOf(made, [
      column(text.product, ({ product }) => product),
      column(text.madeBatches, ({ batches }) => format.number(batches), ({ batches }) => batches),
      mass(text.meatIn, ({ blockGrams }) => blockGrams),
      mass(text.addedIn, ({ addedGrams }) => addedGrams),
      mass(text.madePacked, ({ packedGrams }) => packedGrams),
      mass(text.heatLost, ({ heatGrams }) => heatGrams),
      mass(text.stufferLost, ({ leftGrams }) => leftGrams),
    ]),
    fileName: `made-${view.season}`,
    plots: [barRows(made.map((one) => rowOf(one, format)), massAxis(format))],
  }; // prettier-ignore
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
function rowOf(one: Made, format: Format): BarRow {
  const words = text.madeLine({
    packed: format.mass(one.packedGrams, 0),
    whole: format.mass(inOf(one), 0),
    added: format.mass(one.addedGrams, 0),
    heat: one.heatGrams > 0 ? format.share(one.heatGrams / inOf(one)) : null,
  });
  return {
    name: one.product,
    lines: [
      {
        pieces: [
          { amount: fromGrams(one.packedGrams, format.unit), paint: 'spruce' },
          { amount: fromGrams(one.heatGrams, format.unit), paint: paintOf('smokehouse') },
          { amount: fromGrams(one.leftGrams, format.unit), paint: paintOf('grinder') },
        ].filter(({ amount }) => amount > 0) as BarRow['lines'][number]['pieces'],
        words: '',
      },
    ],
    below: words,
    label: common.named({ name: one.product, text: words }),
    link: '',
  };
}
