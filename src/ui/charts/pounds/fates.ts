/** Where the hanging weight of a season can go, in grams and by name. */
import type { PoundsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import { type Fate, HOME, LOST } from '../engine/part-paint.ts';

type Known = Pick<PoundsReport, 'damageUnknown'>;

/** The name of a fate. Unknown damage of some animals is included in what is otherwise shrink alone. */
export function fateName(view: Known, fate: Fate): string {
  return isMixed(view, fate) ? text.shrinkAndUnweighed : text.fates[fate];
}

/** The same within a sentence. */
export function fateInSentence(view: Known, fate: Fate): string {
  return isMixed(view, fate) ? text.shrinkAndUnweighedSaid : text.saidFates[fate];
}

function isMixed({ damageUnknown }: Known, fate: Fate): boolean {
  return fate === 'shrink' && damageUnknown > 0;
}

/** Grams of each fate; zeros are left out. */
export function fatesOf(view: PoundsReport): Map<Fate, number> {
  const parts = new Map<Fate, number>(view.parts.map(({ part, grams }) => [part, grams]));
  parts.set('shrink', view.shrinkGrams).set('unexplained', view.unexplainedGrams);
  return new Map(
    [...HOME, ...LOST].flatMap((fate) => {
      const grams = parts.get(fate) ?? 0;
      return grams > 0 ? [[fate, grams] as const] : [];
    }),
  );
}

/** Everything that was weighed or is explained: the shares add up to one, even where parts exceed their animals. */
export function weighedOf({ baseGrams, overGrams }: Pick<PoundsReport, 'baseGrams' | 'overGrams'>): number {
  return baseGrams + overGrams;
}

export function isHome(fate: Fate): boolean {
  return HOME.some((one) => one === fate);
}
