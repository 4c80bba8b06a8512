/** Published figures of heat and cooling as data (`resources/heat-tables.json`). Types only: the core reads no files. */
import type { Sourced } from '../species/species.ts';

/** Reduction that a column of the table stands for. The 5-log column is for shelf-stable products and needs further support. */
export type Level = 'log65' | 'log7' | 'log5';

/** Seconds at or above `f` for each level; 0 is at once. */
export type TimeRow = Readonly<Record<Level, number>> & { readonly f: number };

export interface HumidityOption extends Sourced {
  readonly code: 'steam' | 'sealed-oven' | 'humid-part' | 'humid-all';
  /** Of the cooking time, and the least minutes, whichever is longer. */
  readonly share: number;
  readonly minutes: number;
  /** The option stands for a cook of so many minutes and more. */
  readonly cookMinutes: number;
  /** The least temperature of the row that counts, or null for any. */
  readonly leastF: number | null;
}

export interface TimeTable extends Sourced {
  readonly code: string;
  readonly name: string;
  /** Ascending by temperature. */
  readonly rows: readonly TimeRow[];
  /** The most minutes between two temperatures on the way up. */
  readonly comeUp: Sourced & { readonly fromF: number; readonly toF: number; readonly minutes: number };
  readonly humidity: readonly HumidityOption[];
  readonly largePiece: Sourced & { readonly grams: number; readonly ovenF: number };
}

/** The temperature that animals which may carry Trichinella have to reach inside. */
export type HostFigure = Sourced & { readonly f: number };

export interface CoolingStage {
  readonly fromF: number;
  readonly toF: number;
  /** Null where no time is stated. */
  readonly minutes: number | null;
}

export interface CoolingOption extends Sourced {
  readonly code: string;
  readonly name: string;
  /** False where the edition in force could not be read: it then proves nothing. */
  readonly confirmed: boolean;
  /** Minutes after the end of cooking by which the first stage has to begin, or null. */
  readonly startMinutes: number | null;
  readonly stages: readonly CoolingStage[];
}

export interface DegreeHourLimit extends Sourced {
  readonly code: string;
  /** It holds where the highest temperature reaches this, °F, or only where it exceeds it. */
  readonly reachesF: number;
  readonly exclusive: boolean;
  readonly most: number;
}
