import type { PredictionPath, CheckReport, Range } from '../../../bridge/contract.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { FOOT, namesAxis, sharesAxis, TITLE } from '../engine/axes.ts';
import { rangeLayers } from '../engine/boxes.ts';
import type { AxisPlot } from '../plot.ts';
import type { ChartStory } from '../story.ts';
import { column, ranged, tableOf } from '../table.ts';

const ROW = 64;
/** Distance of both ranges from the middle of their row, as a part of it. */
const SHIFT = 0.18;

/** A species with its predictions before and after the season's animals. */
interface Species {
  name: string;
  n: number;
  prior: Range;
  posterior: Range;
}

/** The prediction for the next quote by species, before and after the season's animals. */
export function predictionStory(view: CheckReport, format: Format): ChartStory {
  const shown = view.paths.flatMap(endsOf);
  return {
    title: text.beliefTitle,
    finding: predictionFinding(shown, format),
    n: text.nAnimals({
      animals: shown.reduce((total, species) => total + species.n, 0),
      species: shown.length,
    }),
    notes: [text.beliefKey],
    sources: [],
    table: tableOf(shown, [
      column(text.species, ({ name }) => name),
      column(text.animals, ({ n }) => String(n), ({ n }) => n),
      ...(['prior', 'posterior'] as const).map((which) => {
        const head = which === 'prior' ? text.before : text.now;
        return ranged<Species>(head, (one) => format.shareRange(one[which].low, one[which].high, 1), [
          [`${head}, low`, (one) => one[which].low],
          [`${head}, mean`, (one) => one[which].mean],
          [`${head}, high`, (one) => one[which].high],
        ]);
      }),
    ]),
    fileName: `next-quote-${view.season}`,
    plots: shown.length === 0 ? [] : [drawPredictions(shown, format)],
  }; // prettier-ignore
}

function endsOf({ name, steps }: PredictionPath): Species[] {
  const [prior, posterior] = [steps[0], steps.at(-1)];
  return prior && posterior ? [{ name, n: posterior.n, prior, posterior }] : [];
}

/** Describes the most frequent species: its prediction before and after the season's animals. */
function predictionFinding(shown: readonly Species[], format: Format): string {
  const main = shown.toSorted((a, b) => b.n - a.n)[0];
  if (!main) return text.noBelief;
  const { name, n, prior, posterior } = main;
  return text.belief({
    species: name,
    n,
    before: format.shareRange(prior.low, prior.high),
    now: format.shareRange(posterior.low, posterior.high),
  });
}

function drawPredictions(shown: readonly Species[], format: Format): AxisPlot {
  const at = (which: 'prior' | 'posterior', shift: number) => shown.map((species, row) => ({ ...species[which], at: row + shift }));
  const [before, now] = [at('prior', -SHIFT), at('posterior', SHIFT)];
  const ends = [...before, ...now].flatMap(({ low, high }) => [low, high]);
  const said = ({ low, mean, high }: Range): string => `${format.share(mean)}, ${format.shareRange(low, high, 1)}`;
  return {
    height: shown.length * ROW + FOOT + TITLE,
    lying: true,
    x: { ...sharesAxis(format, text.takeHomeShare), min: Math.max(0, Math.min(...ends) - 0.02), max: Math.max(...ends) + 0.02 },
    y: namesAxis(shown.map(({ name, n }) => `${name} (${n})`)),
    layers: [
      ...rangeLayers(before, 'muted', 2),
      ...rangeLayers(now, 'spruce', 5),
      {
        kind: 'points',
        points: [
          ...before.map(({ mean, at: y }) => ({ x: mean, y, look: { shape: 'rectRot' as const, size: 8, paint: 'card' as const, edge: 'muted' as const } })),
          ...now.map(({ mean, at: y }) => ({ x: mean, y, look: { shape: 'circle' as const, size: 8, paint: 'spruce' as const } })),
        ],
      },
    ],
    marks: shown.map(({ name, prior, posterior }, row) => ({
      label: common.named({ name, text: `${text.before} ${said(prior)}; ${text.now} ${said(posterior)}` }),
      link: '',
      y: [row - 0.5, row + 0.5],
    })),
  };
} // prettier-ignore
