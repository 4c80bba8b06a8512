import type { MassUnit, WeighSource, WeighStage } from './words.ts';

/** One weight as entered. */
export interface WeighingRow {
  id: number;
  stage: WeighStage;
  part: string;
  primal: string | null;
  product: string | null;
  count: number | null;
  typed: string;
  unit: MassUnit;
  tareTyped: string | null;
  tareUnit: MassUnit | null;
  grams: number;
  at: string;
  by: string;
  note: string;
  /** The source of the number. */
  source: WeighSource;
  /** Freezer place of packages. */
  place: string | null;
  batch: string | null;
  corrects: number | null;
  voided: { reason: string; by: string; at: string } | null;
}
