/** What may come with an animal besides its meat. A shop may add words of its own. */
export const BELONGINGS = [
  'antlers', 'skull', 'cape', 'hide', 'heart', 'liver', 'tongue', 'caul fat',
] as const; // prettier-ignore

/** Where a belonging went. */
export const BELONGING_WENT = ['taxidermist', 'hunter', 'discarded'] as const;
export type BelongingWent = (typeof BELONGING_WENT)[number];
