import type { PoundsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Fate } from '../drawing/part-paint.ts';

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
