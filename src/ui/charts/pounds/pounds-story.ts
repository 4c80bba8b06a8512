import type { PoundsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { fateName, fateInSentence } from './fate-name.ts';
import { FEW, type SceneStory } from '../story.ts';
import type { Fate } from '../drawing/part-paint.ts';
import { drawPounds } from './pounds-drawing.ts';
import { fatesOf, isHome, weighedOf } from './pounds-layout.ts';

/** Where the hanging weight went. `linkOf` links to the animals of a fate. */
export function poundsStory(view: PoundsReport, format: Format, linkOf: (fate: Fate) => string): SceneStory {
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
    table: {
      head: [text.kind, text.weight, text.share],
      rows: view.n === 0 ? [] : fates.map(([fate, grams]) => [fateName(view, fate), format.mass(grams, 1), format.share(share(grams))]), // prettier-ignore
      links: fates.map(([fate]) => linkOf(fate)),
      plainHead: [text.kind, `${text.weight}, g`, text.share],
      plain: fates.map(([fate, grams]) => [fateName(view, fate), grams, share(grams)]),
    },
    fileName: `pounds-${view.season}`,
    scene: view.n === 0 ? null : (colors, width) => drawPounds(view, format, linkOf, colors, width),
  };
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
