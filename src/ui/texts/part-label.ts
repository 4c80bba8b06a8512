import type { LotNamed, PlanPart } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/grinder.ts';

/** A lot of fat in the window's language: an animal's own fat by its ticket, bought fat by name and code. */
export function lotLabel({ ticket, fatName, lotCode }: LotNamed): string {
  return ticket === null ? text.lotOfFat({ name: fatName, code: lotCode }) : text.ownFatOf({ ticket });
}

/** A part of a plan in the window's language: trim by its ticket, fat by its lot. */
export function partLabel({ ticket, fatName, lotCode }: Pick<PlanPart, keyof LotNamed>): string {
  if (fatName === null || lotCode === null) return text.trimOfOne({ ticket: ticket ?? '' });
  return lotLabel({ ticket, fatName, lotCode });
}
