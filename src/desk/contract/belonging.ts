/** What came with an animal besides its meat. */
import type { BelongingWent } from '../../trade/belongings.ts';

export type { BelongingWent };

export interface Belonging {
  id: number;
  /** A word of the list, or the shop's own. */
  kind: string;
  tag: string;
  /** Where it is stored. */
  place: string;
  /** Kept as legal evidence of sex. */
  evidence: boolean;
  note: string;
  at: string;
  by: string;
  /** Where it went; null while it is here. */
  end: {
    went: BelongingWent;
    /** The taxidermist, or who took it. */
    name: string;
    receipt: string;
    on: string;
    note: string;
    by: string;
  } | null;
}
