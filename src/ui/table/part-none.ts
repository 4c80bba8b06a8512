/** Parts that an animal may have none of, and how that is typed. */
import type { AnimalPage, CutPart, NonePart } from '../../bridge/contract.ts';
import type { Entry } from '../weighing/entry.ts';

const NONE_PARTS: readonly NonePart[] = ['fat saved', 'sinew', 'bone', 'damage'];

function isNonePart(part: CutPart): part is NonePart {
  return NONE_PARTS.some((one) => one === part);
}

/**
 * Whether the text states that there is none.
 * @example saysNone('0.0 lb') // true
 */
export function saysNone(typed: string): boolean {
  return /^(none|0+([.,]0+)?\s*(lbs?|kgs?|oz|g|#)?)$/i.test(typed.trim());
}

/** The part of the entry, if it can be stated as none: only for the whole animal, not for a primal. */
export function nonePartAt({
  stage,
  part,
  primal,
}: Pick<Entry, 'stage' | 'part' | 'primal'>): NonePart | null {
  return stage === 'cut' && primal === '' && isNonePart(part) ? part : null;
}

/** Whether the part is unknown: neither weighed nor stated as none. */
export function isUnknown(page: Pick<AnimalPage, 'weighings' | 'none'>, part: NonePart): boolean {
  const weighed = page.weighings.some((row) => row.part === part && row.voided === null);
  return !weighed && !page.none.some((stated) => stated.part === part);
}
