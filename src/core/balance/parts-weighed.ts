import type { SharePart } from './part-shares.ts';

/** One part as far as it was weighed, as shares of the whole. */
export interface PartWeighed {
  readonly share: number;
  /** Standard deviation of the readings behind it. */
  readonly sd: number;
  /** More of this part may still come: what was weighed is the least that it can be. */
  readonly open: boolean;
}
export type PartsWeighed = Readonly<Partial<Record<SharePart, PartWeighed>>>;
