import type { PoundsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { HOME, inkOf, letterOf, LOST, paintOf } from '../engine/part-paint.ts';
import { FOOT, namesAxis, sharesAxis } from '../engine/axes.ts';
import type { AxisPlot, Word } from '../plot.ts';
import { fateName } from '../pounds/fates.ts';

type Species = PoundsReport['species'][number];
export type BarPart = keyof Species['shares'];

export const ORDER: readonly BarPart[] = [...HOME, ...LOST];
const ROW = 50;
/** Height of the key, which fills two lines on a narrow screen. */
const KEY = 56;

/** A bar of the whole weight for each species, piece by piece; each piece has its letter, and its share where there is room. */
export function drawSpeciesBars(
  view: PoundsReport,
  shown: readonly Species[],
  format: Format,
  linkOf: (species: string, part: BarPart) => string,
): AxisPlot {
  const pieces = shown.flatMap(({ code, name, shares }, at) => {
    let to = 0;
    return ORDER.flatMap((part) => {
      const [from, share] = [to, shares[part]];
      to += share;
      return share > 0 ? [{ code, name, at, part, share, from, to }] : [];
    });
  });
  const present = ORDER.filter((part) => pieces.some((piece) => piece.part === part));
  return {
    height: shown.length * ROW + FOOT + KEY,
    lying: true,
    x: { ...sharesAxis(format), min: 0, max: 1 },
    y: namesAxis(shown.map(({ name, n }) => text.kindN({ name, n }))),
    layers: [
      {
        kind: 'bars',
        thick: 38,
        edge: 'card',
        radius: 2,
        bars: pieces.map(({ at, from, to, part }) => ({ at, from, to, paint: paintOf(part) })),
      },
    ],
    words: pieces.flatMap(({ at, from, share, part }): Word[] => {
      const plain = part !== 'unexplained' && part !== 'shrink';
      const place: Omit<Word, 'text'> = {
        x: from + share / 2,
        y: at,
        align: 'center',
        bold: true,
        within: share,
        tone: inkOf(part),
        ...(plain ? {} : { plate: 'card' }),
      };
      const both = `${letterOf(part)} ${format.share(share, 0)}`;
      return [{ ...place, text: both, or: letterOf(part) }];
    }),
    marks: pieces.map(({ code, name, at, part, share, from, to }) => ({
      label: `${name}, ${fateName(view, part)}: ${format.share(share)}`,
      link: linkOf(code, part),
      x: [from, to],
      y: [at - 0.38, at + 0.38],
    })),
    key: present.map((part) => ({ text: `${letterOf(part)}  ${fateName(view, part)}`, look: paintOf(part) })),
  };
}
