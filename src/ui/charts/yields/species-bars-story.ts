import type { PoundsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { fateName } from '../pounds/fate-name.ts';
import { FEW, type SceneStory } from '../story.ts';
import { HOME, inkOf, letterOf, LOST, painted } from '../drawing/part-paint.ts';
import { unweighedNote } from '../pounds/pounds-story.ts';
import { box, type Mark, type Scene } from '../drawing/scene.ts';

type Species = PoundsReport['species'][number];
type BarPart = keyof Species['shares'];

const ORDER: readonly BarPart[] = [...HOME, ...LOST];
const ROW = 52;
const NAMES = 170;
const LEGEND_LINE = 26;
/** Minimum segment widths in pixels for a letter with its share, and for a letter alone. */
const [BOTH_FIT, LETTER_FITS] = [62, 22];

/** The same fates by species as bars of equal length. */
export function speciesBarsStory(
  view: PoundsReport,
  format: Format,
  linkOf: (species: string, part: BarPart) => string,
): SceneStory {
  const shown = view.species.toSorted((a, b) => b.n - a.n || a.name.localeCompare(b.name));
  return {
    title: text.speciesTitle,
    finding: barsFinding(shown, format),
    n: text.n({ n: view.n, others: view.others }),
    notes: [text.speciesKey, ...unweighedNote(view)],
    sources: [],
    table: {
      head: [text.kind, 'n', text.weight, ...ORDER.map((part) => fateName(view, part))],
      rows: shown.map(({ name, n, baseGrams, shares }) => [
        ...[name, String(n), format.mass(baseGrams, 0)],
        ...ORDER.map((part) => format.share(shares[part])),
      ]),
      links: shown.map(({ code }) => linkOf(code, 'whole cuts')),
      plainHead: [text.kind, 'n', `${text.weight}, g`, ...ORDER.map((part) => fateName(view, part))],
      plain: shown.map(({ name, n, baseGrams, shares }) => [
        name,
        n,
        baseGrams,
        ...ORDER.map((part) => shares[part]),
      ]),
    },
    fileName: `kinds-${view.season}`,
    scene:
      shown.length === 0 ? null : (colors, width) => drawBars(view, shown, format, linkOf, colors, width),
  };
}

const homeOf = ({ shares }: Species): number => HOME.reduce((total, part) => total + shares[part], 0);

function barsFinding(shown: readonly Species[], format: Format): string {
  const enough = shown.filter(({ n }) => n >= FEW).sort((a, b) => homeOf(b) - homeOf(a));
  const few = shown.filter(({ n }) => n < FEW).map(({ name, n }) => text.kindN({ name, n }));
  const [most, least] = [enough[0], enough.at(-1)];
  const finding =
    !most || !least
      ? []
      : most === least
        ? [text.speciesOne({ name: most.name, share: format.share(homeOf(most), 0) })]
        : [
            text.speciesFinding({
              most: most.name,
              mostShare: format.share(homeOf(most), 0),
              least: least.name,
              leastShare: format.share(homeOf(least), 0),
            }),
          ];
  return [...finding, ...(few.length > 0 ? [text.speciesFew({ names: few.join(', ') })] : [])].join(' ');
}

function drawBars(
  view: PoundsReport,
  shown: readonly Species[],
  format: Format,
  linkOf: (species: string, part: BarPart) => string,
  colors: ChartColors,
  width: number,
): Scene {
  const present = ORDER.filter((part) => shown.some(({ shares }) => shares[part] > 0));
  const { marks: letters, tall: head } = legend(view, present, colors, width);
  const scale = width - NAMES - 4;
  const print = { kind: 'text' as const, fill: colors.ink, size: FONT_SIZE };
  const rows = shown.flatMap((species, i): Mark[] => {
    const top = head + i * ROW;
    let x = NAMES;
    const name: Mark = {
      shapes: [
        {
          ...print,
          x: 0,
          y: top + 25,
          text: text.kindN({ name: species.name, n: species.n }),
          weight: 600,
          size: 15,
        },
      ],
    };
    const pieces = present.flatMap((part): Mark[] => {
      const share = species.shares[part];
      const long = share * scale;
      const at = x;
      x += long;
      if (share <= 0) return [];
      const words = long >= BOTH_FIT ? `${letterOf(part)} ${format.share(share, 0)}` : letterOf(part);
      return [
        {
          label: `${species.name}, ${fateName(view, part)}: ${format.share(share)}`,
          link: linkOf(species.code, part),
          shapes: [
            painted(part, box(at, top, long, 38, 2), colors),
            ...(long >= LETTER_FITS ? plate(part, at + long / 2, top + 24, words, colors) : []),
          ],
        },
      ];
    });
    return [name, ...pieces];
  });
  return {
    width,
    height: head + shown.length * ROW,
    marks: [...letters, ...rows],
  };
}

/** A label on a segment; on a pattern it has a background. */
function plate(part: BarPart, x: number, y: number, words: string, colors: ChartColors): Mark['shapes'] {
  const print = {
    kind: 'text' as const,
    x,
    y,
    text: words,
    size: FONT_SIZE,
    weight: 700,
    anchor: 'middle' as const,
  };
  if (part !== 'unexplained' && part !== 'shrink') return [{ ...print, fill: inkOf(part, colors) }];
  const wide = words.length * 8 + 8;
  return [
    { kind: 'path', d: box(x - wide / 2, y - 15, wide, 20, 4), fill: colors.card },
    { ...print, fill: colors.ink },
  ];
}

/** Legend of the segments, in their order, as many per line as fit; and its height. */
function legend(
  view: PoundsReport,
  present: readonly BarPart[],
  colors: ChartColors,
  width: number,
): { marks: Mark[]; tall: number } {
  let [x, y] = [0, 4];
  const marks = present.map((part): Mark => {
    const words = `${letterOf(part)}  ${fateName(view, part)}`;
    const wide = 28 + words.length * 6.7;
    if (x > 0 && x + wide > width) [x, y] = [0, y + LEGEND_LINE];
    const at = { x, y };
    x += wide + 6;
    return {
      shapes: [
        painted(part, box(at.x, at.y, 18, 18, 3), colors),
        { kind: 'text', x: at.x + 26, y: at.y + 14, text: words, size: FONT_SIZE, fill: colors.ink },
      ],
    };
  });
  return { marks, tall: y + LEGEND_LINE + 4 };
}
