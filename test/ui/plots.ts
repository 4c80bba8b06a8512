/** What the plots of a story show, read back from them. */
import type { AxisPlot, Bar, FlowPlot, Layer, Mark } from '../../src/ui/charts/plot.ts';
import type { ChartStory } from '../../src/ui/charts/story.ts';

/** The first plot of a story. @throws Error where nothing is drawn on axes */
export function plotOf({ plots, title }: Pick<ChartStory, 'plots' | 'title'>): AxisPlot {
  const [plot] = plots;
  if (!plot || 'flows' in plot) throw new Error(`${title} draws nothing on axes`);
  return plot;
}

/** All texts: words on the plot, names of rows and columns, the key, words beside nodes. */
export function wordsOf({ plots }: Pick<ChartStory, 'plots'>): string[] {
  return plots.flatMap((plot) => ('flows' in plot ? flowWords(plot) : axisWords(plot)));
}

function flowWords({ heading, nodes }: FlowPlot): string[] {
  return [...heading.map(({ text }) => text), ...nodes.flatMap(({ words }) => words)];
}

function axisWords({ x, y, words = [], key = [] }: AxisPlot): string[] {
  const named = [x, y].flatMap(({ names, ticks, written }) =>
    names ? (ticks ?? []).flatMap((at) => written(at)) : [],
  );
  return [...words.map(({ text }) => text), ...named, ...key.map(({ text }) => text)];
}

export function marksOf({ plots }: Pick<ChartStory, 'plots'>): Pick<Mark, 'label' | 'link' | 'quiet'>[] {
  return plots.flatMap((plot) =>
    'flows' in plot
      ? plot.nodes.map(({ words, link }) => ({ label: words.join(', '), link }))
      : (plot.marks ?? []),
  );
}

export function linksOf(story: Pick<ChartStory, 'plots'>): string[] {
  return marksOf(story).flatMap(({ link }) => (link ? [link] : []));
}

const kindOf = <K extends Layer['kind']>(story: ChartStory, kind: K): Extract<Layer, { kind: K }>[] =>
  plotOf(story).layers.filter((layer): layer is Extract<Layer, { kind: K }> => layer.kind === kind);

export const barsOf = (story: ChartStory): Bar[] => kindOf(story, 'bars').flatMap(({ bars }) => bars);
export const pointsOf = (story: ChartStory) => kindOf(story, 'points').flatMap(({ points }) => points);
export const linesOf = (story: ChartStory) => kindOf(story, 'line');

/** The numbers that no chart can draw, texts that show them, texts too small to read, and marks without a name. */
export function faultsOf(story: Pick<ChartStory, 'plots'>): string[] {
  const faults: string[] = [];
  const visit = (value: unknown, path: string): void => {
    if (typeof value === 'number' && !Number.isFinite(value)) faults.push(`${path}: ${value}`);
    if (typeof value === 'string' && /NaN|undefined|Infinity/.test(value)) faults.push(`${path}: ${value}`);
    if (path.endsWith('.size') && path.includes('.words') && Number(value) < 12) faults.push(`${path}: small`);
    if (typeof value === 'object' && value !== null)
      for (const [key, part] of Object.entries(value)) visit(part, `${path}.${key}`);
  };
  story.plots.forEach((plot, i) => {
    visit(plot, `plot ${i}`);
    if ('flows' in plot) return;
    if (!((plot.x.min ?? -1) < (plot.x.max ?? 1e9)) || !((plot.y.min ?? -1) < (plot.y.max ?? 1e9)))
      faults.push(`plot ${i}: an axis without length`);
  });
  return [...faults, ...marksOf(story).flatMap(({ label, link }) => (link && !label ? [`no name: ${link}`] : []))];
} // prettier-ignore
