/** The words that the contract is made of. */
export type { Age, AnimalStage, Brought, Legs, Sex, TestResult } from '../../trade/animal.ts';
export type { CutPart, MassUnit, NonePart, WeighSource, WeighStage } from '../../trade/weighing.ts';

/** What is asked for as fat in a grind: nothing, the animal's own, or a bought source's code. */
export type FatChoice = 'none' | 'own' | (string & {});

/** How far a figure that came with the program can be trusted. */
export type Grade = 'measured' | 'official' | 'extension' | 'assumption';

/** Where a figure is from, in words, and how far it can be trusted. */
export interface SourceNote {
  grade: Grade;
  source: string;
}

export interface Range {
  low: number;
  mean: number;
  high: number;
}
