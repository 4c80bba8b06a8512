/** The words that shapes are made of. */

export type MassUnit = 'lb' | 'oz' | 'kg' | 'g';
export type Sex = 'male' | 'female' | 'unknown';
/** Whether an animal in its hide came with its lower legs. */
export type Legs = 'on' | 'off' | 'unknown';
export type Age = 'young' | 'yearling' | 'adult' | 'unknown';
export type Brought = 'whole' | 'skinned' | 'quarters' | 'primals' | 'boned';
export type AnimalStage = 'hanging' | 'cutting' | 'packing' | 'ready' | 'released' | 'disposed';
/** Parts weighed at the table. */
export type CutPart = 'whole cuts' | 'trim' | 'fat saved' | 'sinew' | 'bone' | 'damage';
/** Parts that an animal may have none of. */
export type NonePart = Exclude<CutPart, 'whole cuts' | 'trim'>;
/** Where in the flow a weight was taken. */
export type WeighStage =
  'live' | 'dressed' | 'received' | 'hanging' | 'primal' | 'cut' | 'grinder' | 'packed';
/** What a laboratory reported; `none` takes back what was entered by mistake. */
export type TestResult = 'positive' | 'not detected' | 'none';
/** Typed by hand, read off a scale, or off the practice scale, or brought in from a file. */
export type WeighSource = 'typed' | 'scale' | 'practice' | 'import';
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
