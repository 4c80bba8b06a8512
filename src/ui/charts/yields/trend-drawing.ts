import type { SpeciesYield } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/yields.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { FEW } from '../story.ts';
import { box, disc, line, type Mark, type Scene } from '../drawing/scene.ts';
import { axisOf, type SceneAxis } from '../drawing/scene-axis.ts';

/** Maximum seasons side by side in a panel; older ones are in the table. */
const MAX_SEASONS = 8;
const PANEL = { least: 205, most: 560, tall: 248, head: 46, foot: 46, scale: 46, gap: 26 };
/** Height of the name above a panel. */
const NAME = 24;
const BAR = 22;
/** Minimum width per season, so that shares do not overlap. */
const SEASON = 42;

interface Place {
  x: number;
  y: number;
  width: number;
}

/** A small picture for each species, on its own scale, because seasons are compared within a species. */
export function drawTrend(
  shown: readonly SpeciesYield[],
  season: number,
  format: Format,
  linkOf: (species: string, season: number) => string,
  colors: ChartColors,
  width: number,
): Scene {
  const most = Math.min(MAX_SEASONS, Math.max(...shown.map(({ seasons }) => seasons.length)));
  const least = Math.max(PANEL.least, PANEL.scale + most * SEASON);
  const columns = Math.max(1, Math.min(shown.length, Math.floor((width + PANEL.gap) / (least + PANEL.gap))));
  const wide = Math.min(PANEL.most, (width - (columns - 1) * PANEL.gap) / columns);
  // A single species is already named around the picture.
  const unnamed = shown.length === 1 ? NAME : 0;
  const marks = shown.flatMap((species, i) => {
    const place = {
      x: (i % columns) * (wide + PANEL.gap),
      y: Math.floor(i / columns) * (PANEL.tall + PANEL.gap) - unnamed,
      width: wide,
    };
    const axis = axisOf(valuesOf(species), place.y + PANEL.tall - PANEL.foot, place.y + PANEL.head + 8, 4);
    return [
      ...(unnamed ? [] : [nameMark(species, place, colors)]),
      panel(species, axis, place, format, colors),
      ...seasonMarks(species, season, axis, place, format, linkOf, colors),
    ];
  });
  const lines = Math.ceil(shown.length / columns);
  return { width, height: lines * PANEL.tall + (lines - 1) * PANEL.gap - unnamed, marks };
}

function valuesOf({ seasons, published }: SpeciesYield): number[] {
  return [
    ...seasons.slice(-MAX_SEASONS).flatMap(({ q1, median, q3, n }) => (n < FEW ? [median] : [q1, q3])),
    ...(published ? [published.low, published.high] : []),
  ];
}

function nameMark({ name }: SpeciesYield, { x, y }: Place, colors: ChartColors): Mark {
  return { shapes: [{ kind: 'text', x, y: y + 18, text: name, size: 16, weight: 700, fill: colors.ink }] };
}

function panel(
  { published }: SpeciesYield,
  axis: SceneAxis,
  { x, width }: Place,
  format: Format,
  colors: ChartColors,
): Mark {
  const left = x + PANEL.scale;
  return {
    shapes: [
      ...(published
        ? [
            {
              kind: 'path' as const,
              d: box(
                left,
                axis.at(published.high),
                width - PANEL.scale,
                axis.at(published.low) - axis.at(published.high),
              ),
              fill: colors.steel,
              opacity: 0.3,
            },
          ]
        : []),
      ...axis.ticks.flatMap((tick) => [
        {
          kind: 'path' as const,
          d: line(left, axis.at(tick), x + width, axis.at(tick)),
          stroke: colors.line,
        },
        {
          kind: 'text' as const,
          x: left - 8,
          y: axis.at(tick) + 5,
          text: format.share(tick, 0),
          size: 13,
          fill: colors.muted,
          anchor: 'end' as const,
        },
      ]),
    ],
  };
}

function seasonMarks(
  { code, name, seasons }: SpeciesYield,
  season: number,
  axis: SceneAxis,
  { x, y, width }: Place,
  format: Format,
  linkOf: (species: string, season: number) => string,
  colors: ChartColors,
): Mark[] {
  const shown = seasons.slice(-MAX_SEASONS);
  const step = (width - PANEL.scale) / shown.length;
  return shown.map((one, i) => {
    const middle = x + PANEL.scale + step * (i + 0.5);
    const now = one.season === season;
    const enough = one.n >= FEW;
    const print = { kind: 'text' as const, x: middle, fill: colors.ink, anchor: 'middle' as const };
    const foot = y + PANEL.tall - PANEL.foot;
    const [top, bottom] = [axis.at(one.q3), axis.at(one.q1)];
    const bar = enough
      ? [
          {
            kind: 'path' as const,
            d: box(middle - BAR / 2, top, BAR, Math.max(2, bottom - top), 4),
            fill: now ? colors.spruce : colors.steel,
            opacity: now ? 1 : 0.7,
          },
        ]
      : [];
    return {
      label: `${name} ${one.season}: ${format.share(one.median)}, ${enough ? `n = ${one.n}` : text.tooFew({ n: one.n })}`,
      link: linkOf(code, one.season),
      shapes: [
        // The whole column is a link.
        {
          kind: 'path' as const,
          d: box(middle - step / 2, y + PANEL.head - 16, step, PANEL.tall - PANEL.head + 16),
          fill: colors.card,
          opacity: 0.01,
        },
        ...bar,
        {
          kind: 'path' as const,
          d: disc(middle, axis.at(one.median), 5.5),
          fill: colors.card,
          stroke: colors.ink,
          strokeWidth: 2,
        },
        {
          ...print,
          y: (enough ? top : axis.at(one.median) - 6) - 7,
          text: format.share(one.median, 0),
          size: FONT_SIZE,
          weight: now ? 700 : 400,
        },
        { ...print, y: foot + 20, text: String(one.season), size: FONT_SIZE, weight: now ? 700 : 400 },
        { ...print, y: foot + 38, text: `n ${one.n}`, size: 13, fill: colors.muted },
      ],
    };
  });
}
