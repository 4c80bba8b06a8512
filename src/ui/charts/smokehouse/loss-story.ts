/** What the batches of one recipe lost from the stuffer to the package, with the range that the next one is expected in. */
import type { LossView } from '../../../bridge/contract.ts';
import type { Format } from '../../texts/format.ts';
import { listText } from '../../../words/list.ts';
import { text } from '../../../words/compiled/window/smokehouse-loss.ts';
import { sharesAxis } from '../engine/axes.ts';
import { limitLines } from '../engine/limit-lines.ts';
import type { ChartStory } from '../story.ts';
import { column, tableOf } from '../table.ts';

/** More marks in one picture are indistinguishable. */
const MAX_DRAWN = 40;
/** Number of batches that a sentence can name. */
const MAX_NAMED = 4;
/** Probability of a loss as far out; below it a weight is doubted. Common practice, no source. */
const UNUSUAL = 0.05;

type LossBatch = LossView['recipes'][number]['batches'][number];

/** Out of the ordinary for its recipe; false while too few are known. */
export const isUnusual = ({ unusual }: Pick<LossBatch, 'unusual'>): boolean =>
  unusual !== null && unusual < UNUSUAL;

/** @param linkOf link of a batch; '' on paper */
export function lossStory(
  { recipe, forecast, batches }: LossView['recipes'][number],
  format: Format,
  linkOf: (batch: LossBatch) => string,
): ChartStory {
  const drawn = batches.slice(-MAX_DRAWN);
  // Loss is the rest of the yield, so the high end of one is the low end of the other.
  const [low, middle, high] = [1 - forecast.high, 1 - forecast.middle, 1 - forecast.low];
  const out = batches.filter(isUnusual).map(({ name }) => name);
  const { assumed } = forecast;
  const mass = (grams: number | null): string => (grams === null ? '' : format.mass(grams));
  return {
    title: text.title({ recipe }),
    finding: [
      text.finding({ recipe, n: forecast.batches, middle, low, high, kind: assumed?.name ?? '' }, format),
      out.length > 0 ? text.outside({ names: listText(out.slice(-MAX_NAMED), 'and'), n: out.length }) : '',
    ].join(' ').trim(),
    n: text.batches({ n: batches.length }, format),
    notes: [text.key, ...(drawn.length < batches.length ? [text.drawn({ drawn: drawn.length, of: batches.length }, format)] : [])],
    sources: assumed ? [{ said: '', published: assumed.source.source }] : [],
    table: tableOf(
      batches,
      [
        column(text.batch, ({ name }) => name),
        column(text.day, ({ at }) => format.day(at.slice(0, 10)), ({ at }) => at.slice(0, 10)),
        column(text.stuffed, ({ stuffedGrams }) => mass(stuffedGrams), ({ stuffedGrams }) => stuffedGrams),
        column(text.cooked, ({ cookedGrams }) => mass(cookedGrams), ({ cookedGrams }) => cookedGrams),
        column(text.packed, ({ packedGrams }) => mass(packedGrams), ({ packedGrams }) => packedGrams),
        column(text.lost, ({ loss }) => format.share(loss), ({ loss }) => loss),
      ],
      linkOf,
    ),
    fileName: `loss-${recipe}`,
    plots: drawn.length === 0 ? [] : [limitLines(
      drawn.map((batch) => ({ name: batch.name, value: batch.loss, out: isUnusual(batch), words: format.share(batch.loss), link: linkOf(batch) })),
      [
        { value: high, label: text.upper({ share: high }, format) },
        { value: middle, label: text.middle({ share: middle }, format) },
        { value: low, label: text.lower({ share: low }, format) },
      ],
      sharesAxis(format, text.axis),
    )],
  }; // prettier-ignore
}
