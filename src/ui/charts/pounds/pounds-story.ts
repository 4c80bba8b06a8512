import type { PoundsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { type ChartStory, FEW } from '../story.ts';
import { column, tableOf } from '../table.ts';
import { fateInSentence, fateName, fatesOf, isHome, weighedOf } from './fates.ts';
import { drawGrinder } from './grinder-drawing.ts';
import type { Fate } from '../engine/part-paint.ts';
import { drawPounds } from './pounds-drawing.ts';

/** Where the hanging weight went. `linkOf` links to the animals of a fate. */
export function poundsStory(view: PoundsReport, format: Format, linkOf: (fate: Fate) => string): ChartStory {
  const fates = [...fatesOf(view)];
  const share = (grams: number): number => grams / weighedOf(view);
  return {
    title: text.title[format.unit],
    finding: poundsFinding(view, format),
    n: text.n({ n: view.n, others: view.others }),
    notes: [
      text.key,
      ...unweighedNote(view),
      ...(view.grinder.inGrams > 0 ? [text.grinderNote] : []),
      ...(view.overGrams > 0 ? [text.overNote({ mass: format.mass(view.overGrams, 1) })] : []),
    ],
    sources: [],
    table: tableOf(
      view.n === 0 ? [] : fates,
      [
        column(text.kind, ([fate]) => fateName(view, fate)),
        column(text.weight, ([, grams]) => format.mass(grams, 1), ([, grams]) => grams, `${text.weight}, g`),
        column(text.share, ([, grams]) => format.share(share(grams)), ([, grams]) => share(grams)),
      ],
      ([fate]) => linkOf(fate),
    ),
    fileName: `pounds-${view.season}`,
    plots: view.n === 0 ? [] : [
      drawPounds(view, format, linkOf),
      ...(view.grinder.inGrams > 0 ? [drawGrinder(view.grinder, format)] : []),
    ],
  }; // prettier-ignore
}

/** Added wherever shrink includes unknown damage. */
export function unweighedNote({ damageUnknown }: Pick<PoundsReport, 'damageUnknown'>): string[] {
  return damageUnknown > 0 ? [text.damageUnknown({ n: damageUnknown })] : [];
}

/** The take-home, the largest loss, and the unexplained rest. */
export function poundsFinding(view: PoundsReport, format: Format): string {
  if (view.n === 0) return text.none({ others: view.others });
  const fates = [...fatesOf(view)];
  const home = fates.reduce((total, [fate, grams]) => total + (isHome(fate) ? grams : 0), 0);
  const [most] = fates.filter(([fate]) => !isHome(fate)).sort(([, a], [, b]) => b - a);
  const share = (grams: number): string => format.share(grams / weighedOf(view));
  return [
    most
      ? text.finding({
          base: format.mass(view.baseGrams, 0),
          over: view.overGrams > 0 ? format.mass(view.overGrams, 1) : null,
          n: view.n,
          home: share(home),
          most: fateInSentence(view, most[0]),
          mostShare: share(most[1]),
        })
      : text.noLoss,
    view.unexplainedGrams > 0
      ? text.unexplained({ mass: format.mass(view.unexplainedGrams, 1), share: share(view.unexplainedGrams) })
      : text.allExplained,
    ...(view.n < FEW ? [view.n === 1 ? text.one : text.few({ n: view.n })] : []),
  ].join(' ');
}
