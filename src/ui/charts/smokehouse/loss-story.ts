/** What the batches of one recipe lost from the stuffer to the package, with the range that the next one is expected in. */
import type { LossView } from '../../../bridge/contract.ts';
import type { Format } from '../../texts/format.ts';
import { listText } from '../../../words/list.ts';
import { text } from '../../../words/compiled/window/smokehouse-loss.ts';
import { percentAxis } from '../drawing/axes.ts';
import { drawLimitLines } from '../drawing/limit-lines.ts';
import type { PlotStory } from '../story.ts';

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
): PlotStory {
  const drawn = batches.slice(-MAX_DRAWN);
  // Loss is the rest of the yield, so the high end of one is the low end of the other.
  const [low, middle, high] = [1 - forecast.high, 1 - forecast.middle, 1 - forecast.low];
  const out = batches.filter(isUnusual).map(({ name }) => name);
  const { assumed } = forecast;
  const mass = (grams: number | null): string => (grams === null ? '' : format.mass(grams));
  return {
    title: text.title({ recipe }),
    finding: [
      text.finding({ n: forecast.batches, middle, low, high, kind: assumed?.name ?? '' }, format),
      out.length > 0 ? text.outside({ names: listText(out.slice(-MAX_NAMED), 'and'), n: out.length }) : '',
    ].join(' ').trim(),
    n: text.batches({ n: batches.length }, format),
    notes: [text.key, ...(drawn.length < batches.length ? [text.drawn({ drawn: drawn.length, of: batches.length }, format)] : [])],
    sources: assumed ? [{ said: '', published: assumed.source.source }] : [],
    table: {
      head: [text.batch, text.day, text.stuffed, text.cooked, text.packed, text.lost],
      rows: batches.map(({ name, at, stuffedGrams, cookedGrams, packedGrams, loss }) => [
        name, format.day(at.slice(0, 10)), mass(stuffedGrams), mass(cookedGrams), mass(packedGrams), format.share(loss),
      ]),
      links: batches.map(linkOf),
      plain: batches.map(({ name, at, stuffedGrams, cookedGrams, packedGrams, loss }) => [
        name, at.slice(0, 10), stuffedGrams, cookedGrams, packedGrams, loss,
      ]),
    },
    fileName: `loss-${recipe}`,
    height: 320,
    draw: drawn.length === 0 ? null : (colors) =>
      drawLimitLines(
        {
          label: text.lost,
          names: drawn.map(({ name }) => name),
          values: drawn.map(({ loss }) => loss),
          out: (at) => drawn[at] !== undefined && isUnusual(drawn[at]),
          lines: [
            { value: high, label: text.upper({ share: high }, format) },
            { value: middle, label: text.middle({ share: middle }, format) },
            { value: low, label: text.lower({ share: low }, format) },
          ],
        },
        colors,
        { ...percentAxis(colors, text.axis), suggestedMin: low, suggestedMax: high },
      ),
    linkOf: (_, index) => (drawn[index] && linkOf(drawn[index])) || null,
  }; // prettier-ignore
}
