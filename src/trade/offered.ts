/**
 * What the program itself offers, or gives by itself, where people may also write in their own words. The book keeps `reason:CODE` and
 * `size:CODE`, and each reader sees the word of the reader's language; anything else is a person's own words.
 */

/** Why something was voided, corrected or changed. */
export const REASONS = [
  'weighed-twice', 'wrong-animal', 'wrong-part', 'mistyped', 'weighed-again', 'undone', 'entered-by-mistake', 'correction-undone',
  'wrong-cooler', 'move-undone', 'processed-after-all', 'no-price-line', 'still-here', 'hunter-left',
  'typed-twice', 'another-animal', 'not-clear',
] as const; // prettier-ignore

/** Reasons that the desk or the demo writes without anybody’s choice. */
export const OWN_REASONS = [
  'weighed-again-right', 'handed-over', 'opened-again', 'disposed-with-animal', 'details-removed', 'not-a-day', 'not-a-moment',
] as const; // prettier-ignore

/** Reasons of earlier versions, which nothing offers any more. Each reads as it did. */
export const FORMER_REASONS = [
  'stated-by-mistake', 'left-again', 'no-line', 'undone-then', 'undone-at-once', 'undone-at-once-batch', 'photo-undone',
] as const; // prettier-ignore

export type OwnReason = (typeof OWN_REASONS)[number] | 'undone';

/** How a piece that stays whole is wanted. */
export const WHOLE_SIZES = ['bone-in', 'boneless', 'tied'] as const;

/** As the book keeps it. @example reasonKept('undone') // 'reason:undone' */
export const reasonKept = (code: OwnReason): string => `reason:${code}`;
