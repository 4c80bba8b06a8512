import type { PoundsReport } from '../../../bridge/contract.ts';
import { poundsText as text } from '../../texts/en/season/pounds.ts';
import type { Fate } from '../drawing/part-paint.ts';

type Known = Pick<PoundsReport, 'damageUnknown'>;

/** What an end is called. Where damage of some animals is unknown, it lies in what would else be shrink alone. */
export function fateName(view: Known, fate: Fate): string {
  return isMixed(view, fate) ? text.shrinkAndUnweighed : text.fates[fate];
}

/** The same within a sentence. */
export function fateSaid(view: Known, fate: Fate): string {
  return isMixed(view, fate) ? text.shrinkAndUnweighedSaid : text.fates[fate].toLowerCase();
}

function isMixed({ damageUnknown }: Known, fate: Fate): boolean {
  return fate === 'shrink' && damageUnknown > 0;
}
