/** What an owner asks of all shops. */

/** What is compared. */
export const MEASURES = ['takeHome', 'fat', 'money', 'backlog', 'quotes'] as const;
export type OwnerMeasure = (typeof MEASURES)[number];

/** What the groups are: shops, or each shop by season or by species. */
export const SPLITS = ['shop', 'season', 'species'] as const;
export type OwnerSplit = (typeof SPLITS)[number];

export interface OwnerAsks {
  measure: OwnerMeasure;
  split: OwnerSplit;
  /** Without one: all. */
  season?: number | undefined;
  /** Code. */
  species?: string | undefined;
}

/** One group of the answer, for the rows behind it. */
export interface OwnerGroupAsked extends Omit<OwnerAsks, 'split'> {
  shop: number;
  currency?: string | undefined;
}
