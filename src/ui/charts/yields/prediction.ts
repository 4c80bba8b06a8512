import type { PredictionPath, CheckReport, Range } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE, percentAxis } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import type { ChartStory } from '../story.ts';

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
    table: {
      head: [text.species, text.animals, text.before, text.now],
      rows: shown.map((species) => [
        species.name,
        String(species.n),
        format.shareRange(species.prior.low, species.prior.high, 1),
        format.shareRange(species.posterior.low, species.posterior.high, 1),
      ]),
      plainHead: [
        text.species,
        text.animals,
        ...['low', 'mean', 'high'].flatMap((end) => [`${text.before}, ${end}`]),
        ...['low', 'mean', 'high'].flatMap((end) => [`${text.now}, ${end}`]),
      ],
      plain: shown.map(({ name, n, prior, posterior: posterior }) => [
        name,
        n,
        prior.low,
        prior.mean,
        prior.high,
        posterior.low,
        posterior.mean,
        posterior.high,
      ]),
    },
    fileName: `next-quote-${view.season}`,
    height: 110 + 64 * shown.length,
    draw: shown.length === 0 ? null : (colors) => drawPredictions(shown, colors, format),
  };
}

function endsOf({ name, steps }: PredictionPath): Species[] {
  const [prior, posterior] = [steps[0], steps.at(-1)];
  return prior && posterior ? [{ name, n: posterior.n, prior, posterior: posterior }] : [];
}

/** Describes the most frequent species: its prediction before and after the season's animals. */
function predictionFinding(shown: readonly Species[], format: Format): string {
  const main = shown.toSorted((a, b) => b.n - a.n)[0];
  if (!main) return text.noBelief;
  const { name, n, prior, posterior: posterior } = main;
  return text.belief({
    species: name,
    n,
    before: format.shareRange(prior.low, prior.high),
    now: format.shareRange(posterior.low, posterior.high),
  });
}

function drawPredictions(shown: readonly Species[], colors: ChartColors, format: Format) {
  const ranges = (which: 'prior' | 'posterior', shift: number) => {
    const now = which === 'posterior';
    return {
      type: 'scatterWithErrorBars' as const,
      label: now ? text.now : text.before,
      data: shown.map((species, row) => {
        const { low, mean, high } = species[which];
        return { x: mean, xMin: low, xMax: high, y: row + shift };
      }),
      pointStyle: now ? ('circle' as const) : ('rectRot' as const),
      radius: 8,
      hoverRadius: 9,
      backgroundColor: now ? colors.spruce : colors.card,
      borderColor: now ? colors.spruce : colors.muted,
      borderWidth: 2,
      errorBarColor: now ? colors.spruce : colors.muted,
      errorBarLineWidth: now ? 5 : 2,
      errorBarWhiskerLineWidth: 2,
      errorBarWhiskerSize: 12,
    };
  };
  return {
    type: 'scatterWithErrorBars' as const,
    data: { datasets: [ranges('prior', -0.18), ranges('posterior', 0.18)] },
    options: {
      scales: {
        x: percentAxis(colors, text.takeHomeShare),
        y: {
          type: 'linear' as const,
          reverse: true,
          min: -0.5,
          max: shown.length - 0.5,
          grid: { display: false },
          border: { color: colors.steel },
          afterBuildTicks: (axis: { ticks: { value: number }[] }) => {
            axis.ticks = shown.map((_, value) => ({ value }));
          },
          ticks: {
            color: colors.ink,
            font: { size: FONT_SIZE, family: colors.font },
            autoSkip: false,
            callback: (value: number | string) => named(shown[Number(value)]),
          },
        },
      },
      plugins: {
        tooltip: {
          callbacks: {
            label: (item: { datasetIndex: number; dataIndex: number }) => {
              const species = shown[item.dataIndex];
              if (!species) return '';
              const range = item.datasetIndex === 0 ? species.prior : species.posterior;
              return `${species.name}: ${format.share(range.mean)}, ${format.shareRange(range.low, range.high, 1)}`;
            },
          },
        },
      },
    },
  };
}

function named(species: Species | undefined): string {
  return species ? `${species.name} (${species.n})` : '';
}
