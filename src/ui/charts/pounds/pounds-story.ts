import type { PoundsReport } from '../../../bridge/contract.ts';
import { poundsText as text } from '../../texts/en/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { fateName, fateSaid } from './fate-name.ts';
import { FEW, type SceneStory } from '../story.ts';
import type { Fate } from '../drawing/part-paint.ts';
import { drawPounds } from './pounds-drawing.ts';
import { fatesOf, isHome } from './pounds-layout.ts';

/** From the hook to every end: the one picture of where the weight went. `linkOf` leads to the animals of an end. */
export function poundsStory(look: PoundsReport, format: Format, linkOf: (fate: Fate) => string): SceneStory {
  const fates = [...fatesOf(look)];
  const share = (grams: number): number => grams / look.baseGrams;
  return {
    title: text.title[format.unit],
    finding: poundsFinding(look, format),
    n: text.n(look.n, look.others),
    notes: [
      text.key,
      ...unweighedNote(look),
      ...(look.grinder.inGrams > 0 ? [text.grinderNote] : []),
      ...(look.overGrams > 0 ? [text.overNote(format.mass(look.overGrams, 1))] : []),
    ],
    sources: [],
    table: {
      head: [text.kind, text.weight, text.share],
      rows: look.n === 0 ? [] : fates.map(([fate, grams]) => [fateName(look, fate), format.mass(grams, 1), format.share(share(grams))]), // prettier-ignore
      links: fates.map(([fate]) => linkOf(fate)),
      plainHead: [text.kind, `${text.weight}, g`, text.share],
      plain: fates.map(([fate, grams]) => [fateName(look, fate), grams, share(grams)]),
    },
    fileName: `pounds-${look.season}`,
    scene: look.n === 0 ? null : (colours, width) => drawPounds(look, format, linkOf, colours, width),
  };
}

/** Said wherever shrink is shown of animals whose damage nobody knows. */
export function unweighedNote({ damageUnknown }: Pick<PoundsReport, 'damageUnknown'>): string[] {
  return damageUnknown > 0 ? [text.damageUnknown(damageUnknown)] : [];
}

/** How much went home, what took most of the rest, and what nothing explains. */
export function poundsFinding(look: PoundsReport, format: Format): string {
  if (look.n === 0) return text.none(look.others);
  const fates = [...fatesOf(look)];
  const home = fates.reduce((total, [fate, grams]) => total + (isHome(fate) ? grams : 0), 0);
  const [most] = fates.filter(([fate]) => !isHome(fate)).sort(([, a], [, b]) => b - a);
  const share = (grams: number): string => format.share(grams / look.baseGrams);
  return [
    most
      ? text.finding(
          format.mass(look.baseGrams, 0),
          look.n,
          share(home),
          fateSaid(look, most[0]),
          share(most[1]),
        )
      : text.noLoss,
    look.unexplainedGrams > 0
      ? text.unexplained(format.mass(look.unexplainedGrams, 1), share(look.unexplainedGrams))
      : text.allExplained,
    ...(look.n < FEW ? [look.n === 1 ? text.one : text.few(look.n)] : []),
  ].join(' ');
}
