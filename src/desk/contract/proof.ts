/** What is proven of a made batch or a load, and what was decided of it. */

export interface GramsRange {
  low: number;
  middle: number;
  high: number;
}

/** What a log says of the figures entered. Never that a product is safe. */
export type HeatAnswer = 'meets-figures' | 'not-met' | 'not-proven';

/** What is proven of a made batch, by the newest verdict of the last load that it was in. Never that a product is safe. */
export interface Proof {
  /** `not-needed`: the recipe is raw. */
  cook: HeatAnswer | 'not-needed';
  cooling: HeatAnswer | 'not-needed';
  /** The loads that it was in, with whether their verdict still stands on all of their rows. */
  loads: { id: number; name: string; fresh: boolean }[];
  /** Whether a ready-to-eat label may be printed. */
  readyToEat: boolean;
  /** Codes of what stands against a ready-to-eat label; empty where it may be printed or is not wanted. */
  missing: { code: string; with: Record<string, string | number> }[];
}

export type DecisionKind = 'hold' | 'cook again' | 'not ready to eat' | 'discard' | 'authority';

/** What was decided of a load or batch that is not proven. */
export interface Decision {
  id: number;
  decided: DecisionKind;
  decidedBy: string;
  note: string;
  at: string;
  by: string;
  voided: string | null;
}
