/** The basic terms of the contract. */
export type { AffectedDeed, Age, AnimalStage, Brought, Legs, Sex, TestResult } from '../../trade/animal.ts';
export type { CutPart, MassUnit, NonePart, WeighSource, WeighStage } from '../../trade/weighing.ts';

/** Ordered fat of a grind: none, the animal's own, or a bought source's code. */
export type FatChoice = 'none' | 'own' | (string & {});

/** The quality of a supplied figure. */
export type Grade = 'measured' | 'official' | 'extension' | 'assumption';

/** The origin of a figure, in words, and its quality. */
export interface SourceNote {
  grade: Grade;
  source: string;
}

export interface Range {
  low: number;
  mean: number;
  high: number;
}
